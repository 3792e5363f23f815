"""The program: first which language it speaks, then the commands."""

import os
import sys

from geo.cli.tongue import language_first, language_of_computer
from geo.texts import speaking


def main() -> None:
    """Run the command line in the language that was asked for, or else that of the computer."""
    arguments, asked = language_first(sys.argv[1:])
    with speaking(asked or language_of_computer(os.environ)):
        # What the commands say of themselves is said when they are imported.
        from geo.cli.commands import app

        app(arguments)
