"""The script that shows the day without a network: served from the root, under a strict policy."""


def test_the_script_is_at_the_root_for_who_is_signed_out_too(client, db):
    answer = client.get("/without-network.js")
    assert answer.status_code == 200
    assert answer["Content-Type"].startswith("text/javascript")
    assert answer["Cache-Control"] == "no-cache"
    assert b"caches.delete(SHELF)" in answer.content


def test_only_scripts_of_the_site_itself_may_run_beside_a_page(client, db):
    policy = client.get("/without-network.js")["Content-Security-Policy"]
    assert "worker-src 'self'" in policy
    assert "unsafe" not in policy
