"""The JSON Schema of a job, made from the models that read it."""

from pathlib import Path
from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from planset.job.job import Job

STARTER = Path(__file__).with_name("starter.yaml")
"""A job to begin with, which draws as it stands; its first line names the schema for editors."""

SCHEMA_FILE = "job.schema.json"
"""Where the starter's first line looks for the schema: beside the job."""

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Plain(GenerateJsonSchema):
    """Without titles, which only say a field's name again."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """Return False: no field has a title."""
        del schema
        return False

    def generate(self, schema: Any, mode: Any = "validation") -> dict[str, Any]:
        """Return the schema of a model, with the dialect it is written in."""
        made = super().generate(schema, mode=mode)
        return {"$schema": DIALECT, **made}


def job_schema() -> dict[str, Any]:
    """Return the schema of a job file: every key it may have, and how each value is written.

    It accepts every job that the reader accepts. The reader refuses more: what must agree between
    fields, with catalog entries and with the codes' tables.
    """
    return Job.model_json_schema(schema_generator=_Plain)
