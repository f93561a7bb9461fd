"""The baseline of the HTTP benchmarks: Flask routes that do nothing but what HTTP asks of them."""

from __future__ import annotations

import argparse
import json
import sys

from flask import Flask, Response, request

from boltwright_server.serving.serve import Service, listening, settings

from .servers import HOST, THREADS, WORKERS


def application(answer: bytes) -> Flask:
    """Return an application that sends `answer` on /answer; /parse parses the body first."""
    app = Flask(__name__)

    @app.route("/answer", methods=["GET", "POST"])
    def fixed() -> Response:
        request.get_data()
        return Response(answer, mimetype="application/json")

    @app.post("/parse")
    def parse() -> Response:
        json.loads(request.get_data())
        return Response(answer, mimetype="application/json")

    return app


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--port", type=int, required=True)
    port = parser.parse_args().port
    body = sys.stdin.buffer.read()
    Service(settings(listening(HOST, port), WORKERS, THREADS), lambda: application(body)).run()
