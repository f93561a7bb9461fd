"""One connection to the service: time-outs, retries, the key, and the look-ups that are still valid."""

from __future__ import annotations

import json
import logging
import re
import time
from collections import OrderedDict
from collections.abc import Mapping
from decimal import Decimal
from types import TracebackType
from typing import IO, Any, Self, TypeVar

import requests
import urllib3.exceptions
from requests.adapters import HTTPAdapter
from requests.auth import AuthBase
from urllib3.util.retry import Retry

from .decoding import decode
from .drawing import MEDIA_TYPE as SVG
from .drawing import Drawing
from .errors import UnexpectedAnswer
from .problems import error_of, failure_of
from .values import plain_number
from .version import __version__

T = TypeVar("T")
#: A POST to these changes nothing, so that it may be sent again like a look-up.
JUDGEMENTS = (
    "/v1/capability",
    "/v1/conformance",
    "/v1/control-chart",
    "/v1/gauge-sizes/check",
    "/v1/histogram",
    "/v1/narrow-limits",
    "/v1/part-masters/impact",
    "/v1/part-masters/validation",
    "/v1/piece-decision",
    "/v1/sampling-plan/switching",
    "/v1/set-points",
    "/v1/specification",
    "/v1/state-limits",
    "/v1/trend",
)
#: Seconds: a longer Retry-After is not waited for.
LONGEST_WAIT = 30.0
#: How many look-ups are kept; each is used again only when the service confirms it (304).
KEPT_LOOK_UPS = 256
_RETRIED = (429, 502, 503, 504)
_LEADS = "does base_url lead to the service?"
_LOG = logging.getLogger("boltwright")
_LOG.addHandler(logging.NullHandler())


def flag(value: bool | None) -> str | None:
    """Return a flag as a query parameter; None leaves it out."""
    return None if value is None else str(value).lower()


class _Retry(Retry):
    def parse_retry_after(self, retry_after: str) -> float:
        """Return the seconds to wait: bounded, and none where the header makes no sense."""
        try:
            return min(super().parse_retry_after(retry_after), LONGEST_WAIT)
        except urllib3.exceptions.InvalidHeader:
            return 0.0


class _Key(AuthBase):
    """The API key. As `auth`, so that no .netrc replaces it, and so that it leaves with no redirect."""

    def __init__(self, key: str) -> None:
        self._header = f"Bearer {key}"

    def __call__(self, request: requests.PreparedRequest) -> requests.PreparedRequest:
        request.headers["Authorization"] = self._header
        return request


class Connection:
    """What the resources call. Not shared between threads; one each.

    Args:
        base_url: where the service answers, http or https.
        api_key: sent as a bearer token; never logged or shown.
        timeout: seconds, for connecting and for reading, on every call.
        retries: how often a look-up or a judgement is tried again after a connection failure or 429, 502, 503, 504.
        session: one of your own, with its own adapters (its own retries, then), certificates and proxies. It is not
            closed here.
        user_agent_suffix: names your software in the service's log.

    Raises:
        ValueError: `base_url` is no http address, or the key holds characters that no header can carry.
    """

    def __init__(
        self,
        base_url: str = "http://127.0.0.1:8765",
        api_key: str | None = None,
        *,
        timeout: float | tuple[float, float] = (3.05, 30),
        retries: int = 3,
        session: requests.Session | None = None,
        user_agent_suffix: str | None = None,
    ) -> None:
        if not re.match(r"https?://[^/?#\s]+", base_url):
            raise ValueError(f"base_url starts with http:// or https:// and a host, not {base_url!r}")
        if api_key is not None and not re.fullmatch(r"[!-~]+", api_key):
            raise ValueError("api_key holds a space, a line break or a character outside ASCII")
        self.base_url = base_url.rstrip("/")
        self._auth = None if api_key is None else _Key(api_key)
        self._timeout = timeout
        self._retries = retries
        #: Else it is the caller's, and no other connection may share it.
        self.own_session = session is None
        self._session = self._new_session(retries) if session is None else session
        agent = f"boltwright/{__version__} requests/{requests.__version__}"
        self._user_agent = f"{agent} {user_agent_suffix}" if user_agent_suffix else agent
        self._settings: Mapping[str, Any] | None = None
        self._kept: OrderedDict[tuple[Any, ...], tuple[str, bytes]] = OrderedDict()

    def _new_session(self, retries: int) -> requests.Session:
        session = requests.Session()
        session.mount(f"{self.base_url}/", HTTPAdapter(max_retries=_retry(retries, ("GET", "HEAD"))))
        for path in JUDGEMENTS:
            session.mount(f"{self.base_url}{path}", HTTPAdapter(max_retries=_retry(retries, ("GET", "HEAD", "POST"))))
        return session

    def another(self) -> Connection:
        """Return a further connection to the same service, with the same settings and a session of its own."""
        found = Connection(self.base_url, timeout=self._timeout, retries=self._retries)
        found._auth, found._user_agent = self._auth, self._user_agent
        return found

    def get(self, kind: type[T], path: str, **query: Any) -> T:
        """Look up a result of `kind`; None leaves a parameter out.

        Raises:
            Error: see `boltwright.errors`.
        """
        parameters = {name: str(value) for name, value in query.items() if value is not None}
        key = (path, *parameters.items())
        kept = self._kept.get(key)
        headers = {} if kept is None else {"If-None-Match": kept[0]}
        response = self._send(requests.Request("GET", f"{self.base_url}{path}", headers, params=parameters))
        if response.status_code == 304 and kept is not None:
            self._kept.move_to_end(key)
            return decode(kind, kept[1])
        body = _body(response)
        self._keep(key, response.headers.get("ETag"), body)
        return decode(kind, body)

    def post(self, kind: type[T], path: str, body: Mapping[str, Any]) -> T:
        """Send a JSON body; members that are None are left out.

        Raises:
            Error: see `boltwright.errors`. ValueError, TypeError: the body cannot be written as JSON.
        """
        return decode(kind, _body(self._post(path, body, {})))

    def get_drawing(self, path: str, **query: Any) -> Drawing:
        """Look up a drawing; None leaves a parameter out.

        Raises:
            Error: see `boltwright.errors`.
        """
        parameters = {name: str(value) for name, value in query.items() if value is not None}
        headers = {"Accept": SVG}
        return _drawing(self._send(requests.Request("GET", f"{self.base_url}{path}", headers, params=parameters)))

    def post_for_drawing(self, path: str, body: Mapping[str, Any]) -> Drawing:
        """Send a JSON body, as `post` does, to have the answer drawn.

        Raises:
            Error: see `boltwright.errors`. ValueError, TypeError: the body cannot be written as JSON.
        """
        return _drawing(self._post(path, body, {"Accept": SVG}))

    def _post(self, path: str, body: Mapping[str, Any], headers: Mapping[str, str]) -> requests.Response:
        members = {name: value for name, value in body.items() if value is not None}
        request = requests.Request(
            "POST",
            f"{self.base_url}{path}",
            data=written_json(members),
            headers={"Content-Type": "application/json", **headers},
        )
        return self._send(request)

    def post_text(self, path: str, body: bytes | IO[bytes], media_type: str, **query: Any) -> bytes:
        """Send lines as NDJSON or CSV, a file from its place on; return the answer as it came.

        Raises:
            Error: see `boltwright.errors`.
        """
        return _body(self._send(self._text_request(path, body, media_type, query)))

    def post_rows(self, path: str, body: bytes, media_type: str, **query: Any) -> tuple[bytes, Mapping[str, str]]:
        """Send rows as NDJSON or CSV; return the answer in the same form, whole, and its headers.

        Raises:
            UnexpectedAnswer: it is of another form, or shorter than it says. Others: see `boltwright.errors`.
        """
        response = self._send(self._text_request(path, body, media_type, query))
        found = _body(response)
        _check_form(response, media_type)
        return found, response.headers

    def _text_request(
        self, path: str, body: bytes | IO[bytes], media_type: str, query: Mapping[str, Any]
    ) -> requests.Request:
        parameters = {name: str(value) for name, value in query.items() if value is not None}
        return requests.Request(
            "POST", f"{self.base_url}{path}", {"Content-Type": media_type}, data=body, params=parameters
        )

    def _send(self, request: requests.Request) -> requests.Response:
        request.headers = {"Accept": "application/json", "User-Agent": self._user_agent, **request.headers}
        request.auth = self._auth
        started = time.monotonic()
        try:
            prepared = self._session.prepare_request(request)
            response = self._session.send(
                prepared, timeout=self._timeout, allow_redirects=False, **self._settings_of(prepared.url)
            )
        except (requests.RequestException, urllib3.exceptions.HTTPError) as error:
            failure = failure_of(error, _without_password(self.base_url))
            _LOG.debug("%s %s: %s", request.method, request.url, failure)
            raise failure from error
        took = 1000 * (time.monotonic() - started)
        _LOG.debug("%s %s: %d in %.0f ms", prepared.method, prepared.path_url, response.status_code, took)
        return response

    def _settings_of(self, url: str | None) -> Mapping[str, Any]:
        """Return proxies and certificates; in a session of our own the environment is read once: the host stays."""
        if not self.own_session:
            return self._session.merge_environment_settings(url, {}, None, None, None)
        if self._settings is None:
            self._settings = self._session.merge_environment_settings(url, {}, None, None, None)
        return self._settings

    def _keep(self, key: tuple[Any, ...], tag: str | None, body: bytes) -> None:
        if tag is not None:
            self._kept[key] = (tag, body)
            if len(self._kept) > KEPT_LOOK_UPS:
                self._kept.popitem(last=False)

    def close(self) -> None:
        """Close the connections, unless the session is yours."""
        if self.own_session:
            self._session.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def __repr__(self) -> str:
        """Name the address; the key is never shown."""
        key = ", api_key='***'" if self._auth else ""
        return f"{type(self).__name__}({_without_password(self.base_url)!r}{key})"


def _retry(times: int, methods: tuple[str, ...]) -> Retry:
    return _Retry(
        total=times,
        allowed_methods=frozenset(methods),
        status_forcelist=_RETRIED,
        backoff_factor=0.2,
        backoff_jitter=0.1,
        raise_on_status=False,
    )


def written_json(members: Mapping[str, Any]) -> bytes:
    """Return JSON without line breaks, every decimal as the number that it states.

    Raises:
        ValueError, TypeError: it cannot be written as JSON.
    """
    return json.dumps(members, allow_nan=False, default=_written).encode()


def _written(value: Any) -> Any:
    """Write a decimal as the number that it states, wherever it stands in a body."""
    if not isinstance(value, Decimal):
        raise TypeError(f"{type(value).__name__} cannot be written as JSON")
    return plain_number(value, "the request")


def _body(response: requests.Response) -> bytes:
    if response.status_code != 200:
        raise error_of(response)
    return response.content


def _check_form(response: requests.Response, media_type: str) -> None:
    """Refuse what is no answer of the service, such as the login page of a proxy, and half of one."""
    headers = response.headers
    kind = headers.get("Content-Type", "").partition(";")[0].strip().lower()
    if kind != media_type:
        raise UnexpectedAnswer(f"the answer is {kind or 'of no media type'}, not {media_type}; {_LEADS}")
    length, found = headers.get("Content-Length"), len(response.content)
    if length is not None and "Content-Encoding" not in headers and length.strip() != str(found):
        raise UnexpectedAnswer(f"the answer is cut short: {found} of {length[:20]} bytes came")


def _drawing(response: requests.Response) -> Drawing:
    """Return the drawing of an answer; a service that cannot draw it yet answers in JSON."""
    body = _body(response)
    kind = response.headers.get("Content-Type", "").partition(";")[0].strip().lower()
    if kind != SVG:
        raise UnexpectedAnswer(f"the answer is {kind or 'of no media type'}, no drawing; is the service older?")
    return Drawing(body.decode("utf-8"))


def _without_password(address: str) -> str:
    return re.sub(r"//[^/@]*@", "//***@", address)
