"""Which versions the book keeps figures of, and whether they are of today."""

from datetime import date

from curriculum.recipes.queries import in_writing, latest_approved


def kept_versions() -> list[int]:
    """Keys of the versions that the book lists: taught, and being written. Two queries."""
    listed = (latest_approved(), in_writing().prefetch_related(None))
    return [pk for versions in listed for pk in versions.order_by("pk").values_list("pk", flat=True)]


def are_due(today: date) -> bool:
    """Whether a cost is of an earlier day, or none is of today. Two queries at most."""
    taught = latest_approved().order_by()
    return taught.filter(costed_on__lt=today).exists() or not taught.filter(costed_on=today).exists()
