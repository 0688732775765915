"""What people do in every journey: sign in, open a page, send a form, and look at what came."""

from tests.browser.eyes import complaints, keep_picture


def sign_in(page, site, role):
    """Fill in the sign-in page as somebody of that role."""
    username, password = site.login(role)
    page.goto(site.address + "/")
    page.get_by_label("Name", exact=False).first.fill(username)
    page.locator("input[type=password]").fill(password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(site.address + "/")


def looked_at(page, name):
    """The page as it stands has nothing to complain of; a picture is kept when it has."""
    found = complaints(page)
    if found:
        keep_picture(page, name)
    assert found == [], f"{name}: {page.url}"
