"""The command line: parse, call one function of the pipeline, print what a person wants to know."""

from geo.cli.program import main as main
