"""Single faults put into the package one by one: would a test notice? Not part of a usual run."""
