"""The rooms: one module for each sheet; declares, computes nothing."""
