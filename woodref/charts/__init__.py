"""Pictures of answers; the only room that draws."""
