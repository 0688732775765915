"""Agreement on steps of a ladder beyond what chance would bring.

Cohen's kappa of two markers, plain or weighted by how far apart they are: J. Cohen, Educational and
Psychological Measurement 1960;20:37-46 and Psychological Bulletin 1968;70:213-220. Fleiss's kappa of
several markers: J. L. Fleiss, Psychological Bulletin 1971;76:378-382. Without chance that differs by
category (free marginals): J. J. Randolph, 2005.

Worked example: of ten plates two markers agree on seven; by their own shares chance alone would
bring 4.1. Kappa is (7 - 4.1) / (10 - 4.1), 0.49.
"""

from collections.abc import Callable, Sequence

#: A disagreement's weight by the places of two steps on the ladder; 0 is no disagreement.
Weight = Callable[[int, int], float]


def plain(first: int, second: int) -> float:
    """Every disagreement counts alike."""
    return float(first != second)


def linear(first: int, second: int) -> float:
    """Two steps apart is twice as bad as one."""
    return abs(first - second)


def quadratic(first: int, second: int) -> float:
    """Two steps apart is four times as bad as one."""
    return (first - second) ** 2


def weighted_kappa(table: Sequence[Sequence[float]], weight: Weight = plain) -> float | None:
    """Kappa of a square table: row the first marker's step, column the second's; counts or shares.

    None where chance leaves nothing to disagree about: both gave one and the same step to all.
    """
    size, whole = len(table), sum(map(sum, table))
    rows = [sum(row) / whole for row in table]
    columns = [sum(row[step] for row in table) / whole for step in range(size)]
    cells = [(i, j) for i in range(size) for j in range(size)]
    seen = sum(weight(i, j) * table[i][j] / whole for i, j in cells)
    by_chance = sum(weight(i, j) * rows[i] * columns[j] for i, j in cells)
    return 1 - seen / by_chance if by_chance else None


def table_of(pairs: Sequence[tuple[int, int]], steps: int) -> list[list[int]]:
    """Counts of pairs of steps 0 to ``steps`` - 1. ValueError for a step that is not on the ladder."""
    table = [[0] * steps for _ in range(steps)]
    for first, second in pairs:
        if not (0 <= first < steps and 0 <= second < steps):
            raise ValueError(f"{first} and {second} are not both on a ladder of {steps} steps.")
        table[first][second] += 1
    return table


def fleiss_kappa(counts: Sequence[Sequence[int]], *, free: bool = False) -> float | None:
    """Kappa of several markers: a row a plate, how many gave it each category; the same number a row.

    ``free``: chance gives every category alike. None where chance leaves nothing to disagree about.
    """
    markers = sum(counts[0])
    if any(sum(row) != markers for row in counts):
        raise ValueError("Not every plate was marked by the same number of markers.")
    agreed = [sum(n * (n - 1) for n in row) / (markers * (markers - 1)) for row in counts]
    seen = sum(agreed) / len(agreed)
    shares = [sum(column) / (markers * len(counts)) for column in zip(*counts, strict=True)]
    by_chance = 1 / len(shares) if free else sum(share**2 for share in shares)
    return (seen - by_chance) / (1 - by_chance) if by_chance < 1 else None
