"""``python -m courseware``: the same door as the installed command."""

from courseware.cli.main import main

if __name__ == "__main__":
    main()
