"""``python -m generator`` is ``bindoff``."""

from bindoff.cli import main

if __name__ == "__main__":
    main(prog_name="bindoff")
