"""The command line: reads words, calls models and outputs, prints."""
