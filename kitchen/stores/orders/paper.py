"""The order as a PDF, for the supplier and for the hook at the stores' door.

For the page of an order. Words arrive as they are printed; nothing is reckoned here.
"""

from curriculum.blocks import Sheet
from curriculum.lettering import strong
from curriculum.wording import counted, figure, long_date, money
from kitchen.stores.orders.sheet import OrderSheet


def order_pdf(order: OrderSheet, charge_pence: int = 0) -> bytes:
    """The order with its packs, prices and sum; a supplementary one names the order it is added to."""
    sheet = Sheet(f"Order {order.code}", size=11)
    added = f" Added to order {order.supplements}." if order.supplements else ""
    sheet.head(
        f"Order to {order.supplier}",
        f"Order {order.code}. Deliver on {long_date(order.on)}.{added} For {order.college}.",
    )
    if order.address:
        sheet.paragraph(f"Deliver to: {order.address}.")
    sheet.rows(
        [4, 0, 8, 6, 6],
        [
            [strong(figure(line.count)), line.food, line.pack, money(line.pence_a_pack), money(line.pence)]
            for line in order.lines
        ],
        head=["Packs", "Food", "One pack", "A pack", "Together"],
        align="rllrr",
    )
    sheet.gap(8)
    packs = counted(sum(line.count for line in order.lines), "pack")
    slip = [(packs, money(order.pence))]
    if charge_pence:
        slip.append(("Delivery", money(charge_pence)))
    sheet.slip(slip, total=("Together", money(order.pence + charge_pence)))
    sheet.paragraph(
        "The label of every food is read when it arrives. Nothing is sent instead of what is ordered "
        "unless the college agrees before it is delivered: somebody may not eat it."
    )
    if order.by:
        sheet.paragraph(f"Drawn up by {order.by}. Checked on delivery: name, day, temperature.")
    return sheet.finish()
