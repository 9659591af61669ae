"""A shop's people: accounts, their sessions, and the trail of who signed in and who changed what of whom.

They are the server's, not the records': they stand in tables of their own in the store, outside its chain. A backup
holds them, but nobody's session; an export holds none of it. Passwords are kept as argon2id, sessions as hashes of
what the cookie holds.
"""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import cache
from threading import Semaphore
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput, Missing
from asplayed.keeping.schema import accounts as people
from asplayed.keeping.schema import sessions, trail
from asplayed.web.access import ROLES, Role, Visitor
from asplayed.web.faults import Slow

if TYPE_CHECKING:
    from argon2 import PasswordHasher
    from sqlalchemy import Connection

    from asplayed.keeping import Store

FAILURES = 5
"""Wrong passwords or codes in a row before an account waits."""
WAITS = (timedelta(minutes=1), timedelta(minutes=5), timedelta(minutes=15), timedelta(hours=1))
"""How long it then waits: longer with every five more."""
IDLE, LONGEST = timedelta(hours=2), timedelta(hours=12)
"""A session ends when nobody used it so long, and in any case after so long."""
SHORTEST_PASSWORD, LONGEST_PASSWORD = 10, 256
TOO_MANY = "too many wrong tries for this account; wait a while and try again, or ask the keeper"
WRONG = "the name, the password or the code is not right"
AT_ONCE = Semaphore(2)
"""Hashing takes 64 MB on purpose: no more than two at a time, or many who try would take the whole memory."""


class Account(NamedTuple):
    """One account as the keeper sees it."""

    id: int
    name: str
    role: Role
    player: str | None
    codes: bool
    disabled: bool
    locked: bool
    made: str


class Entry(NamedTuple):
    """One line of the trail."""

    at: str
    who: str
    what: str
    about: str


@cache
def _hasher() -> PasswordHasher:
    from argon2 import PasswordHasher

    return PasswordHasher()  # argon2id, RFC 9106's second recommended choice


@cache
def _nobodys() -> str:
    """The hash of a password nobody has, tried where the account does not exist: both take as long."""
    return _hasher().hash(secrets.token_hex(16))


def _right(kept: str, password: str) -> bool:
    from argon2.exceptions import VerificationError, VerifyMismatchError

    with AT_ONCE:
        try:
            return _hasher().verify(kept, password)
        except (VerifyMismatchError, VerificationError):
            return False


def _hashed(password: str) -> str:
    with AT_ONCE:
        return _hasher().hash(password)


def key_of(session: str) -> str:
    """What a session is kept under: who reads the store learns no session."""
    return hashlib.sha256(session.encode()).hexdigest()


def folded(name: str) -> str:
    """A name as it is looked up.

    >>> folded("  Priya  Lindqvist "), folded("ADA")
    ('priya lindqvist', 'ada')
    """
    return " ".join(name.split()).casefold()


def proper(name: str) -> str:
    """A name an account may have."""
    tidy = " ".join(name.split())
    if not 2 <= len(tidy) <= 60 or not tidy.isprintable():
        raise BadInput("a name has 2 to 60 letters that can be shown, such as Priya Lindqvist")
    return tidy


def acceptable(password: str, name: str) -> str:
    """A password that may be chosen; one that is easily guessed is refused."""
    if not SHORTEST_PASSWORD <= len(password) <= LONGEST_PASSWORD:
        raise BadInput(f"a password has {SHORTEST_PASSWORD} to {LONGEST_PASSWORD} characters; three words will do")
    if len(set(password)) < 5 or (folded(name) and folded(name) in password.casefold()):
        raise BadInput("that password is easily guessed; three words that do not belong together will do")
    return password


class People:
    """The accounts of one shop, over its store. Its clock may be another's, to try what time does."""

    def __init__(self, store: Store, now: Callable[[], datetime] = lambda: datetime.now(UTC)) -> None:
        self._store = store
        self._now = now

    # ---------------------------------------------------------------------------------------------------- looking

    def any(self) -> bool:
        """True when there is an account at all."""
        with self._store.reading() as read:
            return bool(read("SELECT 1 FROM web_accounts LIMIT 1"))

    def list(self) -> tuple[Account, ...]:
        """Every account, by name."""
        now = self._text(self._now())
        with self._store.reading() as read:
            rows = read(
                "SELECT id, name, role, player, codes IS NOT NULL, disabled, locked_until, made FROM web_accounts "
                "ORDER BY known_as"
            )
        return tuple(
            Account(row[0], row[1], row[2], row[3], bool(row[4]), bool(row[5]), bool(row[6] and row[6] > now), row[7])
            for row in rows
        )

    def one(self, account: int) -> Account:
        """The account of that number."""
        found = next((each for each in self.list() if each.id == account), None)
        if found is None:
            raise Missing("there is no such account")
        return found

    def told(self, most: int = 200) -> tuple[Entry, ...]:
        """The trail, newest first."""
        with self._store.reading() as read:
            rows = read("SELECT at, who, what, about FROM web_trail ORDER BY id DESC LIMIT :most", most=most)
        return tuple(map(Entry._make, rows))

    # --------------------------------------------------------------------------------------------------- changing

    def add(self, name: str, password: str, role: str, *, player: str | None = None, who: str) -> int:
        """A new account; its number."""
        tidy = proper(name)
        hashed = _hashed(acceptable(password, tidy))
        role, player = _standing(role, player)
        with self._store.remaking() as action:
            there = action.read("SELECT 1 FROM web_accounts WHERE known_as = :name", name=folded(tidy))
            if there:
                raise BadInput(f"there is an account {tidy} already")
            made = people.insert().values(
                name=tidy,
                known_as=folded(tidy),
                role=role,
                player=player,
                password=hashed,
                codes_used=0,
                disabled=0,
                failures=0,
                made=self._text(self._now()),
            )
            number = int(action.connection.execute(made.returning(people.c.id)).scalar_one())
            self._tell(action.connection, who, "account made", f"{tidy}, {role}")
        return number

    def change(self, account: int, *, role: str, player: str | None, disabled: bool, who: str) -> None:
        """Give an account another standing; a shop keeps at least one keeper who can sign in."""
        was = self.one(account)
        role, player = _standing(role, player)
        if was.role == "keeper" and not was.disabled and (role != "keeper" or disabled):
            others = [
                each for each in self.list() if each.role == "keeper" and not each.disabled and each.id != account
            ]
            if not others:
                raise BadInput("this is the last keeper who can sign in; make another first")
        with self._store.remaking() as action:
            self._set(action.connection, account, role=role, player=player, disabled=int(disabled))
            # What somebody may do is looked up at every request; who is shut out has no session left.
            if disabled:
                action.connection.execute(sessions.delete().where(sessions.c.account_id == account))
            standing = f"{role}{f', {player} only' if player else ''}{', disabled' if disabled else ''}"
            self._tell(action.connection, who, "account changed", f"{was.name}: {standing}")

    def renew_password(self, account: int, password: str, *, who: str) -> None:
        """Another password; every session of the account ends."""
        was = self.one(account)
        hashed = _hashed(acceptable(password, was.name))
        with self._store.remaking() as action:
            self._set(action.connection, account, password=hashed, failures=0, locked_until=None)
            action.connection.execute(sessions.delete().where(sessions.c.account_id == account))
            self._tell(action.connection, who, "password changed", was.name)

    def check_password(self, account: int, password: str) -> bool:
        """True when this is the account's password; wrong ones count towards its waiting."""
        return self._checked(self.one(account).name, password) is not None

    # ----------------------------------------------------------------------------------------------- one-time codes

    def offer_codes(self, account: int) -> tuple[str, str]:
        """A new secret for one-time codes, in use once a first code was right; and its address for a telephone."""
        import pyotp

        was = self.one(account)
        secret = pyotp.random_base32()
        with self._store.remaking() as action:
            self._set(action.connection, account, codes_offered=secret)
        return secret, pyotp.TOTP(secret).provisioning_uri(name=was.name, issuer_name="asplayed")

    def confirm_codes(self, account: int, code: str) -> None:
        """Ask for codes from now on, once the first one was right."""
        was = self.one(account)
        with self._store.remaking() as action:
            [(secret,)] = action.read("SELECT codes_offered FROM web_accounts WHERE id = :id", id=account)
            step = self._step(secret, code) if secret else None
            if step is None:
                raise BadInput("that code is not right; see that the clock of the telephone is, and try the next one")
            self._set(action.connection, account, codes=secret, codes_offered=None, codes_used=step)
            self._tell(action.connection, was.name, "one-time codes", "begun")

    def end_codes(self, account: int, *, who: str) -> None:
        """Ask for no codes any more."""
        was = self.one(account)
        with self._store.remaking() as action:
            self._set(action.connection, account, codes=None, codes_offered=None, codes_used=0)
            self._tell(action.connection, who, "one-time codes", f"ended for {was.name}")

    def _step(self, secret: str, code: str) -> int | None:
        """The half minute a code belongs to, the one before and after counted; None where it belongs to none."""
        import hmac

        import pyotp

        now = int(self._now().timestamp()) // 30
        given = "".join(code.split())
        for step in (now, now - 1, now + 1):
            if hmac.compare_digest(pyotp.TOTP(secret).at(step * 30).encode(), given.encode()):
                return step
        return None

    # -------------------------------------------------------------------------------------------------- signing in

    def sign_in(self, name: str, password: str, code: str = "", *, instead_of: str | None = None) -> str:
        """A new session for who knows the password, and the code where one is asked for; five failures make it wait.

        `instead_of` is the session the browser had: it ends, whoever's it was.
        """
        account = self._checked(name, password, code)
        if account is None:
            raise BadInput(WRONG)
        session = secrets.token_urlsafe(16)
        now = self._text(self._now())
        with self._store.remaking() as action:
            if instead_of:
                action.connection.execute(sessions.delete().where(sessions.c.key == key_of(instead_of)))
            action.connection.execute(
                sessions.insert().values(key=key_of(session), account_id=account, made=now, seen=now)
            )
            self._forget_old(action.connection)
            [(called,)] = action.read("SELECT name FROM web_accounts WHERE id = :id", id=account)
            self._tell(action.connection, called, "signed in", "")
        return session

    def _checked(self, name: str, password: str, code: str | None = None) -> int | None:
        """The number of the account whose name, password and code these are; failures are counted."""
        with self._store.reading() as read:
            rows = read(
                "SELECT id, name, password, codes, codes_used, disabled, locked_until FROM web_accounts "
                "WHERE known_as = :name",
                name=folded(name)[:100],
            )
        password = password[:LONGEST_PASSWORD]
        if not rows:
            _right(_nobodys(), password)
            return None
        number, called, kept, secret, used, disabled, locked_until = rows[0]
        now = self._now()
        if locked_until and locked_until > self._text(now):
            raise Slow(TOO_MANY)
        right = _right(kept, password)
        step = self._step(secret, code) if right and secret and code is not None else None
        if secret and code is not None:
            right = right and step is not None and step > used
        return int(number) if self._counted(number, called, right and not disabled, kept, password, step) else None

    def _counted(self, number: int, called: str, right: bool, kept: str, password: str, step: int | None) -> bool:
        """Note how a try went. What others tried meanwhile counts too, so that many at once get no more than five."""
        now = self._now()
        values: dict[str, object] = {"failures": 0, "locked_until": None}
        if right:
            if step is not None:
                values["codes_used"] = step
            if _hasher().check_needs_rehash(kept):
                values["password"] = _hashed(password)
        with self._store.remaking() as action:
            [(failures, locked_until)] = action.read(
                "SELECT failures, locked_until FROM web_accounts WHERE id = :id", id=number
            )
            waiting = bool(locked_until and locked_until > self._text(now))
            if not waiting and right:
                self._set(action.connection, number, **values)
            elif not waiting:
                failures += 1
                wait = None
                if failures % FAILURES == 0:
                    wait = self._text(now + WAITS[min(failures // FAILURES, len(WAITS)) - 1])
                self._set(action.connection, number, failures=failures, locked_until=wait)
                self._tell(action.connection, called, "sign-in failed", "made to wait" if wait else "")
        if waiting:
            raise Slow(TOO_MANY)
        return right

    def sign_out(self, session: str) -> None:
        """End a session."""
        with self._store.remaking() as action:
            action.connection.execute(sessions.delete().where(sessions.c.key == key_of(session)))

    def visitor(self, session: str) -> Visitor | None:
        """Whose session this is, while it lasts; None for one that has ended, or never was."""
        now = self._now()
        with self._store.reading() as read:
            rows = read(
                "SELECT s.made, s.seen, a.id, a.name, a.role, a.player FROM web_sessions AS s "
                "JOIN web_accounts AS a ON a.id = s.account_id WHERE s.key = :key AND a.disabled = 0",
                key=key_of(session),
            )
        if not rows:
            return None
        made, seen, account, name, role, player = rows[0]
        if made < self._text(now - LONGEST) or seen < self._text(now - IDLE):
            return None
        if seen < self._text(now - timedelta(minutes=5)) and self._store.writable:
            with self._store.remaking() as action:
                action.connection.execute(
                    sessions.update().where(sessions.c.key == key_of(session)).values(seen=self._text(now))
                )
        return Visitor(name, role, session, player, account)

    # ------------------------------------------------------------------------------------------------------ within

    @staticmethod
    def _text(moment: datetime) -> str:
        return moment.isoformat(timespec="seconds")

    def _tell(self, connection: Connection, who: str, what: str, about: str) -> None:
        connection.execute(trail.insert().values(at=self._text(self._now()), who=who, what=what, about=about))

    def _forget_old(self, connection: Connection) -> None:
        now = self._now()
        ended = (sessions.c.made < self._text(now - LONGEST)) | (sessions.c.seen < self._text(now - IDLE))
        connection.execute(sessions.delete().where(ended))

    @staticmethod
    def _set(connection: Connection, account: int, **values: object) -> None:
        connection.execute(people.update().where(people.c.id == account).values(**values))


def _standing(role: str, player: str | None) -> tuple[Role, str | None]:
    """A role there is, and the player a reader is tied to."""
    found = next((each for each in ROLES if each == role), None)
    if found is None:
        raise BadInput(f"a role is one of {', '.join(ROLES)}")
    tied = " ".join((player or "").split()) or None
    if tied and found != "reader":
        raise BadInput("only a reader is tied to one player; leave the player out, or make it a reader")
    return found, tied


class ShopGate:
    """A shop's visitors: whoever signed in, while the session lasts."""

    def __init__(self, people: People, token: str) -> None:
        self._people = people
        self._token = token

    def by_session(self, session: str) -> Visitor | None:
        """Whose session it is."""
        return self._people.visitor(session)

    def by_token(self, token: str) -> Visitor | None:
        """A session sent as a token, by a script that signed in."""
        found = self._people.visitor(token)
        return found._replace(session="") if found else None

    def open_session(self, token: str) -> str | None:
        """None: in a shop nobody comes in by an address."""
        return None

    def first_way(self) -> str:
        """The first page, which asks to sign in; where there is no account yet, the page that makes the first."""
        return "/" if self._people.any() else f"/begin?token={self._token}"
