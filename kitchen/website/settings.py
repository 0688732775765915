"""The one settings file; eight environment variables change it, nothing else does.

DATABASE_URL       where the data lies; without it a SQLite file under .data/
KITCHEN_SECRET_KEY the secret; must be set, except for ``demo`` and the tests
KITCHEN_HOSTS      the host names served, comma separated
KITCHEN_DEBUG      "1" only while developing
KITCHEN_STATIC     where ``collectstatic`` puts the files
KITCHEN_MEDIA      where photographs lie
KITCHEN_ADDRESS    the address printed in QR codes, "https://kitchen.example"
KITCHEN_DATA       the folder of what runs leave, instead of .data/ in the checkout
"""

import os
import secrets
from importlib.util import find_spec
from pathlib import Path

import dj_database_url

BASE_DIR = Path(__file__).resolve().parent.parent.parent
DATA_DIR = Path(os.environ.get("KITCHEN_DATA", BASE_DIR / ".data"))

DEBUG = os.environ.get("KITCHEN_DEBUG") == "1"
SECRET_KEY = os.environ.get("KITCHEN_SECRET_KEY", "")
HOSTS = os.environ.get("KITCHEN_HOSTS", "")
ALLOWED_HOSTS = [host.strip() for host in HOSTS.split(",") if host.strip()] or ["127.0.0.1", "localhost"]
#: A real deployment names its secret; a machine of one person gets a new one at each start.
IN_PRODUCTION = bool(SECRET_KEY)
if not SECRET_KEY:
    SECRET_KEY = "unset-" + secrets.token_urlsafe(40)
SITE_ADDRESS = os.environ.get("KITCHEN_ADDRESS", "http://127.0.0.1:8000")

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "crispy_forms",
    "django_htmx",
    "axes",
    "curriculum",
    "kitchen",
    "assessments",
    "kitchen.website",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "curriculum.look.middleware.BodyTooLargeMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "curriculum.look.middleware.ExpiredSessionMiddleware",
    # After the two above: a script whose session is over hears 401, not that its form is old.
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "curriculum.look.middleware.RuleBrokenMiddleware",
    "curriculum.look.middleware.OthersWriteMiddleware",
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "kitchen.website.urls"
WSGI_APPLICATION = "kitchen.website.wsgi.application"

#: Topic folders carry their own templates; APP_DIRS would not find them.
TEMPLATE_DIRS = sorted(
    path for app in ("curriculum", "kitchen", "assessments") for path in (BASE_DIR / app).glob("**/templates")
)
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": TEMPLATE_DIRS,
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "kitchen.website.context_processors.frame",
            ],
            "libraries": {"enamel": "curriculum.look.templatetags.enamel"},
            "builtins": ["curriculum.look.templatetags.enamel"],
        },
    }
]
CRISPY_ALLOWED_TEMPLATE_PACKS = ["enamel"]
CRISPY_TEMPLATE_PACK = "enamel"
FORM_RENDERER = "django.forms.renderers.DjangoTemplates"

SQLITE_OPTIONS = {
    "transaction_mode": "IMMEDIATE",
    "timeout": 20,
    "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;",
}
DATABASES = {
    "default": dj_database_url.config(
        default=f"sqlite:///{DATA_DIR / 'kitchen.sqlite3'}", conn_max_age=60, conn_health_checks=True
    )
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["OPTIONS"] = SQLITE_OPTIONS
    DATABASES["default"]["CONN_MAX_AGE"] = 0
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "curriculum.User"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "people:sign_in"
LOGIN_REDIRECT_URL = "website:the_day"
LOGOUT_REDIRECT_URL = "people:sign_in"
#: By name and address together: one learner's typing errors must not lock out a whole college.
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_FAILURE_LIMIT = 8
AXES_COOLOFF_TIME = 0.25
AXES_LOCKOUT_TEMPLATE = "look/locked_out.html"
AXES_HTTP_RESPONSE_CODE = 429
AXES_ENABLE_ADMIN = False
SILENCED_SYSTEM_CHECKS: list[str] = []

SESSION_SAVE_EVERY_REQUEST = False
SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "kitchen.website.views.csrf_failure"

LANGUAGE_CODE = "en-gb"
USE_I18N = False
USE_TZ = True
TIME_ZONE = "UTC"

STATIC_URL = "/static/"
STATIC_ROOT = Path(os.environ.get("KITCHEN_STATIC", DATA_DIR / "static"))
MEDIA_ROOT = Path(os.environ.get("KITCHEN_MEDIA", DATA_DIR / "media"))


def package_folder(module: str, *parts: str) -> Path:
    """The folder of an installed package, for the font files it carries."""
    spec = find_spec(module)
    if spec is None or not spec.submodule_search_locations:
        raise RuntimeError(f"The package {module} is not installed; run pip install . first.")
    return Path(next(iter(spec.submodule_search_locations)), *parts)


STATICFILES_DIRS: list = [
    BASE_DIR / "curriculum" / "look" / "static",
    ("fonts/arvo", package_folder("fontpkg_arvo", "files")),
    ("fonts/fira", package_folder("fontpkg_fira_sans", "files")),
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"
        if IN_PRODUCTION
        else "django.contrib.staticfiles.storage.StaticFilesStorage"
    },
}
WHITENOISE_USE_FINDERS = not IN_PRODUCTION
WHITENOISE_AUTOREFRESH = False

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'none'"],
        "script-src": ["'self'"],
        "style-src": ["'self'"],
        "font-src": ["'self'"],
        "img-src": ["'self'"],
        "connect-src": ["'self'"],
        "form-action": ["'self'"],
        "manifest-src": ["'self'"],
        "worker-src": ["'self'"],
        "base-uri": ["'none'"],
        "frame-ancestors": ["'none'"],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
DATA_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024 + 512 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 5000

if IN_PRODUCTION and not DEBUG:
    SECURE_SSL_REDIRECT = os.environ.get("KITCHEN_ADDRESS", "https://").startswith("https://")
    SESSION_COOKIE_SECURE = SECURE_SSL_REDIRECT
    CSRF_COOKIE_SECURE = SECURE_SSL_REDIRECT
    SECURE_HSTS_SECONDS = 31536000
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    CSRF_TRUSTED_ORIGINS = [SITE_ADDRESS] if SITE_ADDRESS.startswith("http") else []

MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
