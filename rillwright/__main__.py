"""`python -m rillwright`: the same as the command."""

from rillwright.cli import main

if __name__ == "__main__":
    main()
