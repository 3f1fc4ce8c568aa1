"""``python -m bindoff`` is ``bindoff``."""

from bindoff.cli import run

if __name__ == "__main__":
    run()
