"""What the white and the yolk of a class's broken eggs cost, as joint products of one egg.

For the cost of the page "Scale it". The eggs broken for a part are paid for whole; who bears
that is the rule of ``foods.joint``. What is left over is credited only where the book has a
recipe that takes a whole batch of it; otherwise it is reckoned as thrown away.

Worked example: 45 eggs at 20 pence are broken for 800 g of yolk and leave 1,350 g of white,
which makes nine meringues. By weight the yolk has 18/48 of £9.00 and the white 30/48.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from curriculum.foods import joint
from curriculum.foods.costs import PackPrice
from curriculum.foods.eggs import WHOLE_PARTS
from curriculum.recipes.egg_counts import PartOf, WholeCount


def shared_cost(
    count: WholeCount, parts: Iterable[PartOf], prices: Mapping[str, PackPrice]
) -> joint.JointCost | None:
    """Who bears the price of the broken pieces; None where none are broken or pieces have no price."""
    price = prices.get(count.food)
    if price is None or price.pieces is None or not count.broken:
        return None
    gives = [
        joint.Part(part.part, part.milligrams_per_piece, prices.get(part.part))
        for part in parts
        if part.whole == count.food and not part.part.endswith(WHOLE_PARTS)
    ]
    if {food for food, _ in count.used} - {part.food for part in gives}:
        return None
    kept = frozenset(left.part for left in count.left if left.makes)
    return joint.joint_cost(Fraction(price.pence, price.pieces), count.broken, gives, dict(count.used), kept)
