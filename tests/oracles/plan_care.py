"""What each tank of a plan would need: all of it is read elsewhere."""
