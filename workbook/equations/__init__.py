"""The science: one module a subject, one function an equation, each with its units and its source."""
