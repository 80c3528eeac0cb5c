"""The doors: everything that touches a disk."""
