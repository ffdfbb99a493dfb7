"""The shop's own numbers: taking in tables, weighing boards, keeping what was measured."""
