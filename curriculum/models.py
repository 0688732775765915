"""The models of this app, from their topic folders, for Django to find."""

from curriculum.courses.models import Course, Holiday, Outcome, PlannedLesson, Term, Unit
from curriculum.foods.models import Avoidance, Food, FoodAllergen, Pack, Supplier, YieldTest
from curriculum.people.models import (
    Adjustment,
    College,
    Group,
    KeptApart,
    Membership,
    RoleGrant,
    Student,
    User,
)
from curriculum.recipes.models import (
    After,
    Component,
    Line,
    Recipe,
    RecipeFreeFrom,
    Said,
    Stay,
    Step,
    StepTechnique,
    Version,
    Way,
)
from curriculum.records.models import HealthRead, Job, Receipt
from curriculum.techniques.models import Fault, Prerequisite, Technique

__all__ = [
    "Adjustment",
    "After",
    "Avoidance",
    "College",
    "Component",
    "Course",
    "Fault",
    "Food",
    "FoodAllergen",
    "Group",
    "HealthRead",
    "Holiday",
    "Job",
    "KeptApart",
    "Line",
    "Membership",
    "Outcome",
    "Pack",
    "PlannedLesson",
    "Prerequisite",
    "Receipt",
    "Recipe",
    "RecipeFreeFrom",
    "RoleGrant",
    "Said",
    "Stay",
    "Step",
    "StepTechnique",
    "Student",
    "Supplier",
    "Technique",
    "Term",
    "Unit",
    "User",
    "Version",
    "Way",
    "YieldTest",
]
