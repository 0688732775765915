#!/usr/bin/env python3
"""Django's command line for the teaching-kitchen planner."""

import os
import sys


def main() -> None:
    """Run one command with the project's one settings file."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
