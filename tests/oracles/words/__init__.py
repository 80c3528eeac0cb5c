"""What each flag says and how serious it is, written from the rule: one module a table, one entry a flag."""
