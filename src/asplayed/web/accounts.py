"""Accounts of a shop: signing in and out, one's own password and codes, and the keeper's list with its trail."""

from __future__ import annotations

import hmac

from asplayed.errors import BadInput
from asplayed.web.access import ROLES
from asplayed.web.doors import cookie_header
from asplayed.web.faults import Slow, status_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, done, missing, page, see_other, shown
from asplayed.web.people import SHORTEST_PASSWORD, People

tab = Tab("Accounts", "/accounts", "g a")


def _people(here: Here) -> People:
    """The shop's people; where there is no shop there are no such pages."""
    if here.app.people is None:
        raise missing("there is no page at this address")
    return here.app.people


def _own(here: Here) -> int:
    if here.visitor is None or here.visitor.account is None:
        raise missing("there is no page at this address")
    return here.visitor.account


# ------------------------------------------------------------------------------------------------- the first keeper


def _may_begin(here: Here, token: str) -> People:
    people = _people(here)
    right = here.app.settings.token
    if people.any() or not right or not hmac.compare_digest(token.encode(), right.encode()):
        raise missing("there is no page at this address")
    return people


@shown("/begin")
def begin(here: Here, token: str = "") -> Page:
    """Make the first keeper, by the address that the start of the server printed."""
    _may_begin(here, token)
    return page(here, "begin.html", token=token, shortest=SHORTEST_PASSWORD, fault="")


@done("/begin")
def begun(here: Here, form: Form) -> Answer:
    """The first keeper is made and signed in; from then on that address leads nowhere."""
    people = _may_begin(here, form.text("token"))
    name, password = form.text("name"), form.secret("password")
    try:
        people.add(name, password, "keeper", who=name)
    except BadInput as fault:
        told = str(fault)
        return page(here, "begin.html", status=400, token=form.text("token"), shortest=SHORTEST_PASSWORD, fault=told)
    return _with_session(here, people.sign_in(name, password), "/")


# ------------------------------------------------------------------------------------------------------- signing in


@shown("/sign-in")
def sign_in(here: Here) -> Page:
    """The page that asks who comes."""
    _people(here)
    return page(here, "sign-in.html", fault="", name="")


@done("/sign-in")
def signed_in(here: Here, form: Form) -> Answer:
    """A new session for who is known."""
    people = _people(here)
    before = here.visitor.session if here.visitor else None
    try:
        session = people.sign_in(form.text("name"), form.secret("password"), form.text("code"), instead_of=before)
    except (BadInput, Slow) as fault:
        return page(here, "sign-in.html", status=status_of(fault), fault=str(fault), name=form.text("name"))
    return _with_session(here, session, "/")


@done("/sign-out")
def signed_out(here: Here) -> Answer:
    """The session ends, and what the browser kept of it is thrown away."""
    if here.visitor and here.visitor.session:
        _people(here).sign_out(here.visitor.session)
    answer = see_other("/sign-in")
    answer.headers["set-cookie"] = cookie_header(here.app.settings, "", lasting=0)
    answer.headers["clear-site-data"] = '"storage"'
    return answer


def _with_session(here: Here, session: str, where: str) -> Answer:
    answer = see_other(where)
    answer.headers["set-cookie"] = cookie_header(here.app.settings, session)
    return answer


# ---------------------------------------------------------------------------------------------------- one's own


@shown("/account")
def account(here: Here) -> Page:
    """One's own account."""
    return _account(here)


def _account(here: Here, *, secret: str = "", code: str = "", fault: str = "", status: int = 200) -> Page:
    found = _people(here).one(_own(here))
    return page(
        here, "account.html", status=status, account=found, shortest=SHORTEST_PASSWORD, secret=secret, code=code,
        fault=fault,
    )  # fmt: skip


@done("/account/password")
def new_password(here: Here, form: Form) -> Answer:
    """Another password; every other session ends, this one goes on under a new name."""
    people, own = _people(here), _own(here)
    try:
        if not people.check_password(own, form.secret("old")):
            raise BadInput("the old password is not right")
        people.renew_password(own, form.secret("new"), who=here.who)
    except (BadInput, Slow) as fault:
        return _account(here, fault=str(fault), status=status_of(fault))
    return see_other("/sign-in")


@done("/account/codes")
def offered_codes(here: Here) -> Page:
    """A new secret for one-time codes, as a picture for the telephone and as letters."""
    import io

    import segno

    secret, address = _people(here).offer_codes(_own(here))
    drawn = io.BytesIO()
    segno.make(address, micro=False).save(
        drawn, kind="svg", scale=5, border=4, xmldecl=False, svgns=True, omitsize=False
    )
    return _account(here, secret=secret, code=drawn.getvalue().decode())


@done("/account/codes/confirm")
def confirmed_codes(here: Here, form: Form) -> Answer:
    """Codes are asked for from now on."""
    try:
        _people(here).confirm_codes(_own(here), form.text("code"))
    except BadInput as fault:
        return _account(here, fault=str(fault), status=400)
    return see_other("/account")


@done("/account/codes/end")
def ended_codes(here: Here, form: Form) -> Answer:
    """No codes any more, for who knows the password."""
    people, own = _people(here), _own(here)
    try:
        if not people.check_password(own, form.secret("password")):
            raise BadInput("the password is not right")
    except (BadInput, Slow) as fault:
        return _account(here, fault=str(fault), status=status_of(fault))
    people.end_codes(own, who=here.who)
    return see_other("/account")


# ------------------------------------------------------------------------------------------------------- the keeper


@shown("/accounts")
def accounts(here: Here) -> Page:
    """Every account, and the trail."""
    return _accounts(here)


def _accounts(here: Here, status: int = 200, fault: str = "") -> Page:
    people = _people(here)
    return page(
        here, "accounts.html", status=status, accounts=people.list(), trail=people.told(), roles=ROLES,
        shortest=SHORTEST_PASSWORD, fault=fault,
    )  # fmt: skip


@done("/accounts")
def added(here: Here, form: Form) -> Answer:
    """A new account."""
    try:
        _people(here).add(
            form.text("name"), form.secret("password"), form.text("role"), player=form.text("player"), who=here.who
        )
    except BadInput as fault:
        return _accounts(here, 400, str(fault))
    return see_other("/accounts")


@done("/accounts/{account:int}")
def changed(here: Here, account: int, form: Form) -> Answer:
    """Another role, another password, shut out or let in again, codes ended."""
    people = _people(here)
    try:
        people.change(
            account,
            role=form.text("role"),
            player=form.text("player"),
            disabled=bool(form.text("disabled")),
            who=here.who,
        )
        if form.secret("password"):
            people.renew_password(account, form.secret("password"), who=here.who)
        if form.text("codes") == "end":
            people.end_codes(account, who=here.who)
    except BadInput as fault:
        return _accounts(here, status_of(fault), str(fault))
    return see_other("/accounts")


routes = (
    begin, begun, sign_in, signed_in, signed_out, account, new_password, offered_codes, confirmed_codes, ended_codes,
    accounts, added, changed,
)  # fmt: skip
