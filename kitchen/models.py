"""The models of this app, from their topic folders, for Django to find."""

from kitchen.lessons.models import Attendance, Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.lessons.papers.models import Print
from kitchen.rooms.models import Appliance, Bench, Closure, Equipment, Room
from kitchen.safety.models import Correction, Incident, Reading
from kitchen.stores.became.models import Became, KitGiven, KitGivenTo
from kitchen.stores.deliveries.models import AcceptedFor, Delivery, DeliveryLine, DeliveryRule
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.letting.models import LetGo
from kitchen.stores.lots.models import LabelReading, Opening
from kitchen.stores.models import (
    Kit,
    KitLine,
    KitSet,
    Lot,
    MadePart,
    Movement,
    Requisition,
    RequisitionLine,
    Weighing,
)
from kitchen.stores.moves.listed.models import Reason
from kitchen.stores.orders.models import ClosedDay, Keeping, Order, OrderLine, OrderRule, WeekPlan
from kitchen.stores.tools.models import EquipmentLine, EquipmentMove
from kitchen.stores.weighout.models import (
    AllTheSame,
    BulkReading,
    Cleaned,
    Lid,
    SecondCheck,
    WeighedFrom,
)
from kitchen.timeplan.models import DayEvent, DemonstrationPlan, LearnedMinutes, TimePlan
from kitchen.timeplan.own_order.models import OwnOrder, OwnOrderSetting
from kitchen.timeplan.pins.models import Pin

__all__ = [
    "AcceptedFor",
    "AllTheSame",
    "Appliance",
    "Attendance",
    "Became",
    "Bench",
    "BulkReading",
    "Cleaned",
    "ClosedDay",
    "Closure",
    "Correction",
    "DayEvent",
    "Delivery",
    "DeliveryLine",
    "DeliveryRule",
    "DemonstrationPlan",
    "Dish",
    "Equipment",
    "EquipmentLine",
    "EquipmentMove",
    "Incident",
    "Keeping",
    "KeptFigure",
    "LetGo",
    "Kit",
    "KitGiven",
    "KitGivenTo",
    "KitLine",
    "KitSet",
    "LabelReading",
    "LearnedMinutes",
    "Lesson",
    "Lid",
    "Lot",
    "MadePart",
    "Movement",
    "Opening",
    "Order",
    "OrderLine",
    "OrderRule",
    "OwnOrder",
    "OwnOrderSetting",
    "Pin",
    "Place",
    "PlaceLearner",
    "Print",
    "Reading",
    "Reason",
    "Requisition",
    "RequisitionLine",
    "Room",
    "SecondCheck",
    "Shift",
    "TimePlan",
    "WeekPlan",
    "WeighedFrom",
    "Weighing",
]
