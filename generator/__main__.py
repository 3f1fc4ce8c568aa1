"""``python -m generator`` is ``bindoff``."""

from generator.cli import main

if __name__ == "__main__":
    main(prog_name="bindoff")
