"""woodref: wood properties for furniture makers, each number with its spread and its source."""
