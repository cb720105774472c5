"""The least a program of this kind can be: one record, one command, one line in colour."""

import typer
from pydantic import BaseModel
from rich.console import Console


class Greeting(BaseModel):
    words: str


app = typer.Typer(add_completion=False)


@app.command()
def greet(words: str = "hello") -> None:
    Console().print(Greeting(words=words).words)


if __name__ == "__main__":
    app()
