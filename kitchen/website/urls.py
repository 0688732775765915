"""Every address of the site: the topics' own lists, one after another, and the pages of the site."""

from django.urls import include, path

from kitchen.website import views

TOPICS = (
    "curriculum.people",
    "curriculum.foods",
    "curriculum.recipes",
    "kitchen.rooms",
    "kitchen.lessons",
    "kitchen.timeplan",
    "kitchen.stores",
    "assessments.schemes",
    "assessments.marking",
    "assessments.verification",
    "assessments.feedback",
    "kitchen.website.learners",
    "kitchen.website.sheets",
    "kitchen.website.papers",
)


website_patterns = (
    [
        path("", views.the_day, name="the_day"),
        path("lessons/<str:lesson>/", views.lesson, name="lesson"),
        path("healthz", views.healthz, name="healthz"),
        path("without-network.js", views.without_network, name="without_network"),
        path("favicon.ico", views.favicon, name="favicon"),
    ],
    "website",
)

urlpatterns = [
    *[path("", include(f"{topic}.urls")) for topic in TOPICS],
    path("", include(website_patterns)),
]

handler400 = "kitchen.website.views.bad_request"
handler403 = "kitchen.website.views.forbidden"
handler404 = "kitchen.website.views.not_found"
handler500 = "kitchen.website.views.broken"
