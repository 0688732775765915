"""Addresses of kits, weigh-out, requisition, stock and labels."""

from django.urls import include, path

from kitchen.stores import views
from kitchen.stores.became import views as became
from kitchen.stores.deliveries import views as deliveries
from kitchen.stores.letting import views as letting
from kitchen.stores.lots import views as lots
from kitchen.stores.lots.labels import views as lot_labels
from kitchen.stores.lots.opened import views as opened
from kitchen.stores.made import views as made
from kitchen.stores.moves import views as moves
from kitchen.stores.moves.expiring import views as expiring_views
from kitchen.stores.moves.lesson import views as lesson_moves
from kitchen.stores.moves.listed import views as listed_reasons
from kitchen.stores.moves.wasted import views as wasted
from kitchen.stores.orders import views as orders
from kitchen.stores.orders.closed import views as ordering
from kitchen.stores.prints import views as prints
from kitchen.stores.recall import views as recalls
from kitchen.stores.requisitions import views as requisitions

app_name = "stores"
urlpatterns = [
    path("", include("kitchen.stores.learning.urls")),
    path("", include("kitchen.stores.tools.urls")),
    path("", include("kitchen.stores.weighout.urls")),
    path("lessons/<str:lesson>/kits/", views.kits, name="kits"),
    path("lessons/<str:lesson>/kits/make/", views.make_kits, name="make_kits"),
    path("lessons/<str:lesson>/kits/labels.pdf", prints.labels_pdf, name="labels_pdf"),
    path("lessons/<str:lesson>/kits/issue-sheet.pdf", prints.issue_sheet_pdf, name="issue_sheet_pdf"),
    path("lessons/<str:lesson>/issue/", views.issue, name="issue"),
    path("lessons/<str:lesson>/more/", lesson_moves.more, name="more"),
    path("lessons/<str:lesson>/back/", lesson_moves.back, name="back"),
    path("lessons/<str:lesson>/stores/", lesson_moves.lesson_stores, name="lesson_stores"),
    path("lessons/<str:lesson>/became/", became.became, name="became"),
    path("lessons/<str:lesson>/became/labels.pdf", became.labels, name="take_home_labels"),
    path("lessons/<str:lesson>/became/kits/<str:kit>/", became.given, name="kit_given"),
    path("lessons/<str:lesson>/kits/<str:recipe>/may-contain/", letting.let_go, name="let_go"),
    path("lessons/<str:lesson>/requisition/", requisitions.requisition, name="requisition"),
    path("lessons/<str:lesson>/requisition.pdf", prints.requisition_pdf, name="requisition_pdf"),
    path("lessons/<str:lesson>/requisition/approve/", requisitions.approve, name="approve_requisition"),
    path("lessons/<str:lesson>/requisition/query/", requisitions.query, name="query_requisition"),
    path("lessons/<str:lesson>/requisition/reply/", requisitions.reply, name="reply_to_query"),
    path("lessons/<str:lesson>/requisition/withdraw/", requisitions.withdraw, name="withdraw_requisition"),
    path("stores/requisitions/", requisitions.waiting, name="requisitions"),
    path("lessons/<str:lesson>/made/", made.made, name="made"),
    path("lessons/<str:lesson>/made/of/<slug:food>/", made.make_lot, name="make_lot"),
    path("lessons/<str:lesson>/made/<str:code>/kits/", made.give_from_made, name="give_from_made"),
    path("lessons/<str:lesson>/made/<str:code>/label.pdf", made.label_pdf, name="made_label"),
    path("stores/deliveries/", deliveries.deliveries, name="deliveries"),
    path("stores/deliveries/begin/", deliveries.begin, name="begin_delivery"),
    path("stores/deliveries/rules/", deliveries.rules, name="delivery_rules"),
    path("stores/deliveries/<str:code>/", deliveries.delivery, name="delivery"),
    path("stores/deliveries/<str:code>/line/", deliveries.line, name="delivery_line"),
    path("stores/deliveries/<str:code>/lines/<int:number>/", deliveries.decide, name="decide_line"),
    path("stores/deliveries/<str:code>/lines/<int:number>/label/", deliveries.read_label, name="line_label"),
    path("stores/deliveries/<str:code>/close/", deliveries.close, name="close_delivery"),
    path("stores/week/", orders.week, name="this_week"),
    path("stores/week/<str:on>/", orders.week, name="week"),
    path("stores/orders/", orders.orders, name="orders"),
    path("stores/reasons/", listed_reasons.reasons, name="reasons"),
    path("stores/reasons/<slug:which>/<slug:code>/retire/", listed_reasons.retire, name="retire_reason"),
    path("stores/reasons/<slug:which>/<slug:code>/again/", listed_reasons.again, name="reason_again"),
    path("stores/waste/", wasted.by_reason, name="waste_by_reason"),
    path("stores/waste/waste.csv", wasted.by_reason_csv, name="waste_csv"),
    path("stores/orders/<str:code>/", orders.order, name="order"),
    path("stores/orders/<str:code>/sent/", orders.order_sent, name="order_sent"),
    path("stores/orders/<str:code>/cancel/", orders.order_cancelled, name="order_cancelled"),
    path("stores/orders/<str:code>/order.pdf", orders.order_paper, name="order_pdf"),
    path("stores/orders/<str:code>/order.csv", orders.order_table, name="order_csv"),
    path("stores/ordering/", ordering.kept_to, name="kept_to"),
    path("stores/ordering/close/", ordering.close, name="close_day"),
    path("stores/ordering/weeks/", ordering.weeks, name="fill_weeks"),
    path("stores/ordering/<str:on>/open/", ordering.reopen, name="open_day"),
    path("stores/par/", orders.par, name="par"),
    path("stores/par/<slug:food>/", orders.keeping, name="keeping"),
    path("stores/count/", moves.count, name="count"),
    path("stores/expiring/", expiring_views.expiring, name="expiring"),
    path("stores/found/", moves.found, name="found"),
    path("stores/recall/", recalls.find, name="find_recall"),
    path("stores/recall/plates/<str:place>/", recalls.plate, name="plate"),
    path("stores/recall/lots/<str:lots>/", recalls.recall, name="recall"),
    path("stores/recall/lots/<str:lots>/hold/", recalls.hold, name="recall_hold"),
    path("stores/recall/lots/<str:lots>/contacts.pdf", recalls.contacts_pdf, name="recall_contacts"),
    path("stores/recall/lots/<str:lots>/labels.pdf", recalls.labels_pdf, name="recall_labels"),
    path("stores/stock/", lots.stock, name="stock"),
    path("stores/lots/", lots.receive, name="receive"),
    path("stores/lots/<str:code>/", lots.lot, name="lot"),
    path("stores/lots/<str:code>/hold/", lots.hold, name="hold"),
    path("stores/lots/<str:code>/label/", lot_labels.lot_label, name="lot_label"),
    path("stores/lots/<str:code>/label/same/", lot_labels.same, name="same_label"),
    path("stores/lots/<str:code>/label/wider/", lot_labels.widen, name="widen_label"),
    path("stores/lots/<str:code>/opened/", opened.opened, name="opened"),
    path("stores/lots/<str:code>/opened/undo/", opened.undo, name="opened_undo"),
    path("stores/lots/<str:code>/release/", lots.release, name="release"),
    path("stores/lots/<str:code>/back/<int:number>/", lots.give_back, name="give_back"),
    path("stores/lots/<str:code>/waste/", moves.waste, name="waste"),
    path("stores/lots/<str:code>/correct/<int:number>/", moves.correct, name="correct"),
    path("stores/labels/", lots.labels, name="labels"),
    path("stores/labels/<slug:food>/", lots.label, name="label"),
]
