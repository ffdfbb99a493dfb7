"""What is said: answers as headline, tables and notes, and the words they share."""
