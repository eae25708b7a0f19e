"""Settings of the office, from the environment; what is wrong with one is said by its name.

| Variable | Meaning |
|---|---|
| ``QUARTERWALK_DATA`` | folder of the data (default: the user's data folder) |
| ``DATABASE_URL`` | a PostgreSQL database, in place of the SQLite file in that folder |
| ``QUARTERWALK_ORIGIN`` | where people reach the office, such as ``https://office.example`` |
| ``QUARTERWALK_BEHIND_PROXY`` | ``1`` where a proxy in front says that it was reached by HTTPS |
| ``QUARTERWALK_SECRET`` | key that signs sessions (default: a file in the data folder) |
| ``QUARTERWALK_SHIFT_MS`` | milliseconds that the office's clock is ahead; only the demo sets it |
"""

from __future__ import annotations

from pathlib import Path

from quarterwalk.office.environment import database, origin, secret, shift_ms, switched_on

DEBUG = False
SECRET_KEY = secret()
SHIFT_MS = shift_ms()
ORIGIN = origin()
ALLOWED_HOSTS = ORIGIN.hosts
CSRF_TRUSTED_ORIGINS = ORIGIN.trusted

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "allauth",
    "allauth.account",
    "quarterwalk.office",
]
MIDDLEWARE = [
    "quarterwalk.office.headers.SafeHeaders",
    "quarterwalk.office.addresses.PlainAddresses",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "allauth.account.middleware.AccountMiddleware",
]
ROOT_URLCONF = "quarterwalk.office.urls"
WSGI_APPLICATION = "quarterwalk.office.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "quarterwalk.office.frame.frame",
            ]
        },
    }
]

DATABASES = {"default": database()}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
# in the database, so that every process that serves counts the same attempts
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.db.DatabaseCache",
        "LOCATION": "office_cache",
    }
}

# accounts: no e-mail is sent and nobody signs up; a lead makes people and gives them a link
AUTH_USER_MODEL = "office.Person"
AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
ACCOUNT_ADAPTER = "quarterwalk.office.accounts.Accounts"
ACCOUNT_USER_MODEL_USERNAME_FIELD = "sign_in_name"
ACCOUNT_USER_MODEL_EMAIL_FIELD = None
ACCOUNT_LOGIN_METHODS = {"username"}
ACCOUNT_SIGNUP_FIELDS = ["username*", "password1*", "password2*"]
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_RATE_LIMITS = {"login": "30/m/ip", "login_failed": "10/m/ip,5/5m/key", "pair": "10/m/ip"}
ACCOUNT_SESSION_REMEMBER = True
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "fields"
SESSION_COOKIE_AGE = 14 * 24 * 3600
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "quarterwalk.office.views.faults.lost_form"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = ORIGIN.secure
SECURE_HSTS_SECONDS = 31_536_000 if ORIGIN.secure else 0
if switched_on("QUARTERWALK_BEHIND_PROXY"):
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CONTENT_TYPE_NOSNIFF = True

DATA_UPLOAD_MAX_MEMORY_SIZE = 4_000_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2_000
FILE_UPLOAD_MAX_MEMORY_SIZE = 4_000_000

STATIC_URL = "/static/"
STATICFILES_DIRS = [("fonts", Path(__file__).parents[1] / "report" / "fonts")]
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False

USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en-us"
USE_I18N = False

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
