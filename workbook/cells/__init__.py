"""The compiler: from tables and records to cells; the only place that knows addresses."""
