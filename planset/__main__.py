"""`python -m planset` is the `planset` command."""

from planset.cli import main

main()
