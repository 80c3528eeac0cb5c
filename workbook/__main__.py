"""python -m workbook."""

from workbook.cli import main

if __name__ == "__main__":
    main()
