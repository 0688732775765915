"""``manage.py check_ledgers``: says whether every ledger is whole; exit code 1 when one is not."""

from django.core.management.base import BaseCommand

from kitchen.website.ledger_checks import CHECKS, faults


class Command(BaseCommand):
    """Reads all ledgers and changes nothing."""

    help = "Say whether stock, marks and attendance add up and are still protected from change."

    def handle(self, *args: object, **options: object) -> None:
        """Print what is wrong, or that nothing is."""
        found = faults()
        for sentence in found:
            self.stdout.write(sentence)
        if found:
            raise SystemExit(1)
        self.stdout.write(f"{len(CHECKS)} checks hold.")
