"""Names of days."""

NAMES = '"Mon","Tue","Wed","Thu","Fri","Sat","Sun"'
DAY_NAME = 'CHOOSE(WEEKDAY({date},2),{names})&" "&DAY({date})'
