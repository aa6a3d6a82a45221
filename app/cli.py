"""Command line: arguments, headless runs, exit codes. Qt is imported late, where it is needed."""


def main() -> int:
    """Run one command and return its exit code."""
    return 0
