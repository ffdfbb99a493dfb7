"""The arithmetic of an answer, step by step: each formula, its numbers and its source."""
