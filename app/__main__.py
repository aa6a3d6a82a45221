"""``python -m app``: hands over to the command line."""

if __name__ == "__main__":
    import sys

    from app.cli import main

    sys.exit(main())
