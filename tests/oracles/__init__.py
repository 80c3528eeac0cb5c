"""Every computed column a second time, from the design and the labels, in pandas: never from the formulas."""
