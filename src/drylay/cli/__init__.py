"""The command line: the library's calls as commands, thin."""

from drylay.cli.run import main

__all__ = ["main"]
