"""The questions that files of published values ask, by the word in `about.toml`. One line a module."""

from . import (
    asme_gages,
    coating,
    conventions,
    gauges,
    judgement,
    loads,
    mechanical,
    pairing,
    process,
    products,
    rounding,
    sampling,
    threads,
    unified,
)

QUESTIONS = {
    **threads.QUESTIONS,
    **unified.QUESTIONS,
    **gauges.QUESTIONS,
    **coating.QUESTIONS,
    **asme_gages.QUESTIONS,
    **products.QUESTIONS,
    **mechanical.QUESTIONS,
    **loads.QUESTIONS,
    **pairing.QUESTIONS,
    **judgement.QUESTIONS,
    **rounding.QUESTIONS,
    **sampling.QUESTIONS,
    **process.QUESTIONS,
    **conventions.QUESTIONS,
}
