"""Edited copies: reading them back, checking, comparing and merging them."""
