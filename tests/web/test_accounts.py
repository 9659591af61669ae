"""Shop mode: promises 23 and 24. Sign-in, waiting, sessions that end, codes, and what each role may do."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pyotp
import pytest
from argon2 import PasswordHasher
from litestar.testing import TestClient
from tests.keeping import a_server
from tests.web.conftest import BASE, PORT, TOKEN
from tests.web.test_doors import routes

from asplayed.cli import main
from asplayed.errors import BadInput, Missing
from asplayed.keeping import open_store
from asplayed.keeping.reading import reading
from asplayed.web.access import ROLES, Visitor, admits, table
from asplayed.web.app import application
from asplayed.web.doors import OPEN_PATHS, Doors, form_token
from asplayed.web.faults import Slow
from asplayed.web.known import Known
from asplayed.web.people import FAILURES, IDLE, LONGEST, WRONG, People
from asplayed.web.settings import Settings

COOKIE = f"asplayed-{PORT}"
PASSWORD = "three odd words"
STAFF = {
    "Priya Lindqvist": ("keeper", None),
    "Halvard Strand": ("fitter", None),
    "Jonas Tessler": ("builder", None),
    "Mireille Okafor": ("reader", None),
    "Ada Brandt": ("reader", "Ada Brandt"),
}


class Clock:
    """A clock that a test turns."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 1, 9, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture(autouse=True, scope="module")
def quick_hashing() -> Iterator[None]:
    """Hash passwords quickly here; one test tries the real choice."""
    with pytest.MonkeyPatch.context() as patched:
        hasher = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        patched.setattr("asplayed.web.people._hasher", lambda: hasher)
        yield


@pytest.fixture(scope="module")
def staffed(demo_store: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop's store with one account of every standing."""
    import shutil

    place = tmp_path_factory.mktemp("shop") / "store.db"
    shutil.copy(demo_store, place)
    with open_store(place) as kept:
        people = People(kept)
        for name, (role, player) in STAFF.items():
            people.add(name, PASSWORD, role, player=player, who="test")
    return place


@pytest.fixture
def shop(staffed: Path, tmp_path: Path) -> Doors:
    """The app of a shop, over a store of this test's own."""
    import shutil

    place = tmp_path / "store.db"
    shutil.copy(staffed, place)
    return application(place, Settings(PORT, token=TOKEN, shop=True))


@contextlib.contextmanager
def visitor(shop: Doors, name: str | None = None) -> Iterator[TestClient[Any]]:
    """Somebody with a browser, signed in where named."""
    with TestClient(shop, base_url=BASE, raise_server_exceptions=False) as client:  # type: ignore[arg-type]
        client.headers.update({"origin": BASE, "accept": "text/html"})
        if name is not None:
            answer = client.post("/sign-in", data={"name": name, "password": PASSWORD}, follow_redirects=False)
            assert answer.status_code == 303, answer.text
        yield client


def form(client: TestClient[Any], **fields: str) -> dict[str, str]:
    """A form's fields with this session's token."""
    return {"csrf": form_token(client.cookies[COOKIE]), **fields}


@pytest.fixture(scope="module")
def database() -> Iterator[str]:
    """The address of an empty PostgreSQL database."""
    programs = a_server.binaries()
    if programs is None:
        pytest.skip("PostgreSQL is not installed: apt-get install postgresql")
    with a_server.running(programs) as host:
        with a_server.keeper(host) as keeper:
            keeper.execute(f"CREATE DATABASE counter OWNER {a_server.SHOP}".encode())
        yield f"postgresql://{a_server.SHOP}@/counter?host={host}"


@pytest.fixture
def people(tmp_path: Path) -> Iterator[tuple[People, Clock]]:
    """Accounts over an empty store, and the clock they go by."""
    clock = Clock()
    with open_store(tmp_path / "store.db") as kept:
        found = People(kept, clock)
        found.add("Ada Brandt", PASSWORD, "keeper", who="test")
        found.add("Halvard Strand", PASSWORD, "fitter", who="test")
        yield found, clock


def test_no_page_without_signing_in(shop: Doors) -> None:
    with visitor(shop) as client:
        for method, path in routes(shop):
            if path in OPEN_PATHS or path.startswith("/assets/"):
                continue
            answer = client.request(method, path, follow_redirects=False)
            told = answer.status_code == 303 and answer.headers["location"] == "/sign-in"
            assert told or answer.status_code == 403, (method, path)
        assert client.get(f"/?token={TOKEN}", follow_redirects=False).headers["location"] == "/sign-in"
        assert client.get("/", headers={"authorization": f"Bearer {TOKEN}"}).url.path == "/sign-in"


def test_passwords_are_kept_as_argon2id_and_sessions_as_hashes(
    shop: Doors, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("asplayed.web.people._hasher", PasswordHasher)
    with visitor(shop, "Ada Brandt") as client:
        session = client.cookies[COOKIE]
        assert len(session) >= 22  # 128 bits in letters of 6
    with reading(tmp_path / "store.db") as read:
        kept = [row[0] for row in read("SELECT password FROM web_accounts")]
        keys = [row[0] for row in read("SELECT key FROM web_sessions")]
    assert all(each.startswith("$argon2id$v=19$") for each in kept)
    assert any("$m=65536,t=3,p=4$" in each for each in kept), "hashed anew as it is chosen now, at the next sign-in"
    assert len(set(kept)) == len(kept)
    content = b"".join(each.read_bytes() for each in tmp_path.glob("store.db*"))
    assert keys
    assert session.encode() not in content
    assert PASSWORD.encode() not in content


def test_a_session_is_new_at_sign_in_and_dead_at_sign_out_and_when_shut_out(shop: Doors) -> None:
    with visitor(shop, "Priya Lindqvist") as client:

        def sign_in(instead_of: str = "") -> str:
            """Halvard's new session, in a browser that had that one."""
            client.cookies.clear()
            fields = {"name": "Halvard Strand", "password": PASSWORD}
            if instead_of:
                client.cookies.set(COOKIE, instead_of)
                fields |= {"csrf": form_token(instead_of)}
            answer = client.post("/sign-in", data=fields, follow_redirects=False)
            assert answer.status_code == 303
            client.cookies.clear()
            return str(answer.cookies[COOKIE])

        def alive(session: str) -> bool:
            sent = {"cookie": f"{COOKIE}={session}"}
            return client.get("/account", headers=sent, follow_redirects=False).status_code == 200

        def post(path: str, session: str, **fields: str) -> Any:
            sent = {"cookie": f"{COOKIE}={session}"}
            return client.post(path, data={"csrf": form_token(session), **fields}, headers=sent, follow_redirects=False)

        keeper = client.cookies[COOKIE]
        first = sign_in()
        second = sign_in(instead_of=first)
        assert first != second
        assert (alive(first), alive(second)) == (False, True)
        assert "storage" in post("/sign-out", second).headers["clear-site-data"]
        assert not alive(second)
        third = sign_in()
        page = client.get("/accounts", headers={"cookie": f"{COOKIE}={keeper}"}).text
        number = re.search(r'action="/accounts/(\d+)" class="card row printed" aria-label="Halvard', page)
        assert number
        assert post(f"/accounts/{number[1]}", keeper, role="fitter", disabled="yes").status_code == 303
        assert not alive(third)
        assert client.post("/sign-in", data={"name": "Halvard Strand", "password": PASSWORD}).status_code == 400


def test_a_session_that_was_planted_is_not_taken_over(shop: Doors) -> None:
    with visitor(shop) as client:
        client.cookies.set(COOKIE, "planted-by-somebody-else")
        client.post("/sign-in", data={"name": "Ada Brandt", "password": PASSWORD}, follow_redirects=False)
        assert "planted-by-somebody-else" not in [cookie.value for cookie in client.cookies.jar if cookie.domain]


def test_sessions_end(people: tuple[People, Clock]) -> None:
    found, clock = people
    session = found.sign_in("ada brandt", PASSWORD)
    assert found.visitor(session) == Visitor("Ada Brandt", "keeper", session, None, 1)
    clock.now += IDLE + timedelta(seconds=1)
    assert found.visitor(session) is None
    session = found.sign_in("Ada Brandt", PASSWORD)
    began = clock.now
    while clock.now < began + LONGEST:
        assert found.visitor(session) is not None
        clock.now += IDLE / 2
    clock.now += timedelta(seconds=1)
    assert found.visitor(session) is None


def test_five_failures_make_one_account_wait_and_no_other(people: tuple[People, Clock]) -> None:
    found, clock = people
    for _ in range(FAILURES):
        with pytest.raises(BadInput, match=WRONG):
            found.sign_in("Ada Brandt", "a wrong password")
    with pytest.raises(Slow):
        found.sign_in("Ada Brandt", PASSWORD)
    assert found.sign_in("Halvard Strand", PASSWORD)
    clock.now += timedelta(seconds=61)
    assert found.sign_in("Ada Brandt", PASSWORD)
    for _ in range(FAILURES - 1):
        with pytest.raises(BadInput, match=WRONG):
            found.sign_in("Ada Brandt", "a wrong password")
    assert found.sign_in("Ada Brandt", PASSWORD)


def test_nobody_learns_which_names_have_accounts(people: tuple[People, Clock]) -> None:
    found, _ = people
    for name in ("Ada Brandt", "Nobody At All", "", "x" * 10_000):
        with pytest.raises(BadInput, match=f"^{WRONG}$"):
            found.sign_in(name, "a wrong password")


def test_one_time_codes_are_asked_for_and_none_is_taken_twice(people: tuple[People, Clock]) -> None:
    found, clock = people
    secret, address = found.offer_codes(1)
    assert address.startswith("otpauth://totp/")
    with pytest.raises(BadInput):
        found.confirm_codes(1, "000000" if pyotp.TOTP(secret).at(clock.now) != "000000" else "111111")
    found.sign_in("Ada Brandt", PASSWORD)  # not confirmed yet: not asked for
    found.confirm_codes(1, pyotp.TOTP(secret).at(clock.now))
    with pytest.raises(BadInput):
        found.sign_in("Ada Brandt", PASSWORD)
    with pytest.raises(BadInput):  # the code that confirmed is spent
        found.sign_in("Ada Brandt", PASSWORD, pyotp.TOTP(secret).at(clock.now))
    clock.now += timedelta(seconds=30)
    code = pyotp.TOTP(secret).at(clock.now)
    assert found.sign_in("Ada Brandt", PASSWORD, code)
    with pytest.raises(BadInput):
        found.sign_in("Ada Brandt", PASSWORD, code)


@pytest.mark.parametrize("password", ["short", "aaaaaaaaaaaaaaaa", "my name is ada brandt", "x" * 257])
def test_a_password_that_is_easily_guessed_is_refused(people: tuple[People, Clock], password: str) -> None:
    with pytest.raises(BadInput):
        people[0].renew_password(1, password, who="test")


def test_a_shop_keeps_a_keeper(people: tuple[People, Clock]) -> None:
    found, _ = people
    with pytest.raises(BadInput, match="last keeper"):
        found.change(1, role="reader", player=None, disabled=False, who="test")
    with pytest.raises(BadInput, match="last keeper"):
        found.change(1, role="keeper", player=None, disabled=True, who="test")


def test_every_role_may_what_the_table_says_and_nothing_else(shop: Doors, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every route × every standing: let through, or refused with 403, as the table has it."""

    def missing(*_given: object) -> None:
        raise Missing("whoever was let through finds nothing here, quickly")

    monkeypatch.setattr(Known, "bag", missing)
    for name, (role, player) in STAFF.items():
        one = Visitor(name, role, "session", player)  # type: ignore[arg-type]
        with visitor(shop, name) as client:
            for route in table():
                method, path = next(
                    (method, path)
                    for method, path in routes(shop)
                    if method == route.split(" ")[0]
                    and re.fullmatch(re.sub(r"{\w+}", "[^/]+", route.split(" ")[1]), path)
                )
                if path in ("/sign-in", "/sign-out", "/begin"):
                    continue
                token = {"x-csrf-token": form_token(client.cookies[COOKIE])}
                answer = client.request(method, path, headers=token, follow_redirects=False)
                assert (answer.status_code == 403) != admits(route, one), (name, route, answer.status_code)


def test_the_table_separates_the_roles() -> None:
    for role in ROLES:
        assert admits("GET /sets/{name}", Visitor("one", role, ""))
    fitter, builder, reader = (Visitor("one", role, "") for role in ("fitter", "builder", "reader"))
    assert admits("POST /sets/{name}/edit", fitter)
    assert not admits("POST /sets/{name}/edit", builder)
    assert not admits("POST /sets/{name}/edit", reader)
    for route, row in table().items():
        if not route.startswith("GET"):
            assert "nobody" not in row.may or route in ("POST /sign-in", "POST /begin"), route
        if route.split(" ")[1].startswith("/accounts"):
            assert row.may == {"keeper"}


def test_a_reader_tied_to_a_player_sees_his_sets_and_guesses_no_others(shop: Doors) -> None:
    with visitor(shop, "Ada Brandt") as client:
        page = client.get("/")
        assert "ada-brandt" in page.text
        assert "jonas-tessler" not in page.text
        assert [each["name"] for each in client.get("/api/sets").json()["sets"]] == ["ada-brandt"]
        theirs = [path for method, path in routes(shop) if method == "GET" and "/ada-brandt" in path]
        assert len(theirs) > 8
        for path in theirs:
            other = path.replace("ada-brandt", "jonas-tessler")
            none = path.replace("ada-brandt", "no-such-set")
            answers = [client.get(each) for each in (other, none)]
            assert answers[0].status_code in (403, 404), other
            assert answers[0].status_code == answers[1].status_code, other
        assert client.get("/sets/ada-brandt?beside=jonas-tessler").status_code in (400, 404)
        assert client.get("/accounts").status_code == 403


def test_the_first_keeper_is_made_by_the_address_of_the_start_and_once_only(tmp_path: Path) -> None:
    doors = application(tmp_path / "store.db", Settings(PORT, token=TOKEN, shop=True))
    assert doors.first_way() == f"/begin?token={TOKEN}"
    fields = {"name": "Priya Lindqvist", "password": PASSWORD}
    with visitor(doors) as client:
        assert client.get("/begin?token=wrong").status_code == 404
        assert client.post("/begin", data=fields).status_code == 404
        assert client.get(doors.first_way()).status_code == 200
        made = client.post("/begin", data=fields | {"token": TOKEN}, follow_redirects=False)
        assert made.status_code == 303
        assert client.get("/accounts").status_code == 200
        assert client.get(f"/begin?token={TOKEN}").status_code == 404
        assert client.post("/begin", data=form(client, **fields, token=TOKEN)).status_code == 404
    assert doors.first_way() == "/"


@pytest.mark.slow
def test_a_shop_stands_on_postgresql(database: str) -> None:
    """From the first keeper to a change that is signed, five failures and the trail."""
    doors = application(database, Settings(PORT, token=TOKEN, shop=True))
    with visitor(doors) as client:
        first = {"name": "Priya Lindqvist", "password": PASSWORD, "token": TOKEN}
        assert client.post("/begin", data=first, follow_redirects=False).status_code == 303
        client.post("/demo", data=form(client))
        changed = client.post("/sets/ada-brandt/edit", data=form(client, changes="7 iron: bend 1 weak", based_on="1"))
        assert changed.status_code == 200
        told = client.get("/api/sets/ada-brandt/history").json()["versions"]
        assert [each["who"] for each in told] == ["Priya Lindqvist", "Priya Lindqvist"]
        for _ in range(FAILURES):
            wrong = form(client, name="Priya Lindqvist", password="a wrong password")
            assert client.post("/sign-in", data=wrong).status_code == 400
        assert client.post("/sign-in", data=wrong).status_code == 429
        assert "made to wait" in client.get("/accounts").text


def test_who_signed_in_and_what_the_keeper_did_stands_in_the_trail(shop: Doors) -> None:
    with visitor(shop, "Priya Lindqvist") as keeper:
        keeper.post("/accounts", data=form(keeper, name="Corvin Ostrand", password=PASSWORD, role="builder"))
        page = keeper.get("/accounts").text
    assert "account made" in page
    assert "Corvin Ostrand, builder" in page
    assert "signed in" in page
    assert PASSWORD not in page


def test_changes_are_signed_with_the_name_of_who_made_them(shop: Doors, tmp_path: Path) -> None:
    from asplayed.keeping import set_history

    with visitor(shop, "Halvard Strand") as fitter:
        fitter.post("/sets/ada-brandt/edit", data=form(fitter, changes="7 iron: bend 1 weak", based_on="1"))
    assert set_history("ada-brandt", tmp_path / "store.db")[0].who == "Halvard Strand"


@pytest.mark.parametrize(
    "given",
    [
        ["--host", "192.0.2.1"],
        ["--host", "192.0.2.1", "--shop"],
        ["--host", "192.0.2.1", "--shop", "--certificate", "none.pem"],
        ["--host", "192.0.2.1", "--shop", "--certificate", "none.pem", "--key", "none.pem"],
        ["--certificate", "none.pem"],
        ["--certificate", "none.pem", "--key", "none.pem"],
    ],
)
def test_off_this_machine_only_with_accounts_over_tls_and_by_name(
    given: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["serve", "--store", str(tmp_path / "store.db"), "--no-browser", *given])
    assert left.value.code == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert not (tmp_path / "store.db").exists()
