"""The college, its people, what they may do, and the learners with their needs."""

from django.contrib.auth.models import AbstractBaseUser, BaseUserManager, PermissionsMixin
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Lower


class College(models.Model):
    """The one college of this site, with its zone, limits and settings."""

    id = models.PositiveSmallIntegerField(primary_key=True, default=1)
    name = models.CharField(max_length=200)
    short_name = models.CharField(max_length=40)
    is_demonstration = models.BooleanField(default=False)
    time_zone = models.CharField(max_length=64, default="Europe/London")
    currency = models.CharField(max_length=3, default="GBP")
    country = models.CharField(max_length=2, default="GB")
    address = models.CharField(max_length=200, blank=True)
    #: Every college sets these itself; what stands here until then is common practice, no source.
    feedback_days = models.PositiveSmallIntegerField(default=7)
    retention_years = models.PositiveSmallIntegerField(default=6)
    lesson_start_minutes = models.PositiveSmallIntegerField(default=15)
    lesson_clear_down_minutes = models.PositiveSmallIntegerField(default=30)
    waves_at_most = models.PositiveSmallIntegerField(default=3)
    term_starts_on = models.DateField(null=True, blank=True)
    #: The demonstration college lives on a day of its own; a real one leaves this empty.
    shown_today = models.DateField(null=True, blank=True)
    settings = models.JSONField(default=dict, blank=True)

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="people_one_college_only")]

    def __str__(self) -> str:
        return self.name


class UserManager(BaseUserManager):
    """Makes accounts; there is no site administrator, roles are granted as rows."""

    def create_user(self, username: str, name: str, password: str | None = None, **more: object) -> "User":
        """One account. Without a password nobody can sign in with it."""
        user = self.model(username=username, name=name, **more)
        user.set_password(password)
        user.save(using=self._db)
        return user

    def get_by_natural_key(self, username: str) -> "User":
        """Names are the same in any case."""
        return self.get(username__iexact=username)


class User(AbstractBaseUser, PermissionsMixin):
    """A person who can sign in. One name, in any script, as they write it."""

    username = models.CharField(max_length=150, unique=True, validators=[UnicodeUsernameValidator()])
    name = models.CharField(max_length=200)
    name_to_print = models.CharField(max_length=200, blank=True)
    large_print = models.BooleanField(default=False)
    dim_room = models.BooleanField(default=False)
    is_active = models.BooleanField(default=True)

    objects = UserManager()
    USERNAME_FIELD = "username"
    REQUIRED_FIELDS = ["name"]

    class Meta:
        constraints = [models.UniqueConstraint(Lower("username"), name="people_username_taken_in_any_case")]

    def __str__(self) -> str:
        return self.name

    @property
    def printed_name(self) -> str:
        """The name as it stands on paper."""
        return self.name_to_print or self.name


class Role(models.TextChoices):
    """What a person may do; a person can hold several."""

    LECTURER = "lecturer", "lecturer"
    STORES = "stores", "stores"
    TECHNICIAN = "technician", "technician"
    STUDENT = "student", "student"
    SECOND_MARKER = "second_marker", "second marker"
    VERIFIER = "verifier", "internal verifier"
    MANAGER = "manager", "programme manager"
    EXTERNAL = "external", "external examiner"


class RoleGrant(models.Model):
    """One role of one person, from a day until a day."""

    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="grants")
    role = models.CharField(max_length=20, choices=Role.choices)
    from_on = models.DateField()
    until_on = models.DateField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["user", "role"], condition=Q(until_on=None), name="people_role_granted_once"
            ),
            models.CheckConstraint(
                condition=Q(until_on=None) | Q(until_on__gte=F("from_on")),
                name="people_role_ends_after_it_starts",
            ),
        ]


class Student(models.Model):
    """A learner. Age is computed at the lesson's date, never stored."""

    user = models.OneToOneField(User, on_delete=models.PROTECT, related_name="student")
    college_number = models.CharField(max_length=20, unique=True)
    born_on = models.DateField(null=True, blank=True)
    left_handed = models.BooleanField(default=False)
    photograph_allowed = models.BooleanField(default=False)
    guardian_consent = models.BooleanField(null=True, blank=True)
    emergency_note = models.CharField(max_length=300, blank=True)
    tasting_note = models.CharField(max_length=300, blank=True)
    erased_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return self.user.name


class AdjustmentKind(models.TextChoices):
    """A reasonable adjustment, agreed before the lesson."""

    EXTRA_TIME = "extra_time", "extra time"
    LARGE_PRINT = "large_print", "large print"
    TASTER = "taster", "another person tastes"
    PROMPTER = "prompter", "prompter"
    QUIET_BENCH = "quiet_bench", "quiet bench"
    OTHER = "other", "other"


class Adjustment(models.Model):
    """Ended, never deleted."""

    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="adjustments")
    kind = models.CharField(max_length=20, choices=AdjustmentKind.choices)
    percent = models.PositiveSmallIntegerField(null=True, blank=True)
    words = models.CharField(max_length=300, blank=True)
    from_on = models.DateField()
    until_on = models.DateField(null=True, blank=True)
    agreed_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=~Q(kind="extra_time") | Q(percent__gte=1, percent__lte=100),
                name="people_extra_time_has_a_percentage",
            )
        ]


class Group(models.Model):
    """A teaching group in one college year."""

    code = models.CharField(max_length=20)
    year = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=200)
    level = models.PositiveSmallIntegerField(default=1)
    lecturer = models.ForeignKey(User, on_delete=models.PROTECT, related_name="groups_led")
    budget_pence_a_learner = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["code", "year"], name="people_group_code_once_a_year")]
        ordering = ["code"]

    def __str__(self) -> str:
        return f"{self.code} {self.name}"


class Membership(models.Model):
    """A learner's time in a group."""

    group = models.ForeignKey(Group, on_delete=models.PROTECT, related_name="memberships")
    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="memberships")
    from_on = models.DateField()
    until_on = models.DateField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["group", "student"], condition=Q(until_on=None), name="people_in_a_group_once"
            )
        ]


class KeptApart(models.Model):
    """Two learners who do not share a bench; no reason is kept."""

    a = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="+")
    b = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["a", "b"], name="people_kept_apart_once"),
            models.CheckConstraint(condition=Q(a__lt=F("b")), name="people_kept_apart_in_order"),
        ]
