"""What leaves the shop as a page or a picture; only this part of woodref draws."""
