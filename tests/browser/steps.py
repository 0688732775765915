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
    """Note what is wrong with the page as it stands; the test fails at its end, with a picture of each."""
    found = complaints(page)
    if found:
        keep_picture(page, name)
        page.wrong[f"{name} {page.url}"] = found
    page.problems.clear()


def answered(page, address):
    """What the site answers to the person of this window, without opening it as a page."""
    answer = page.request.get(address)
    assert answer.status == 200, f"{address} answers {answer.status}"
    return answer.body()
