"""A page read back: its tags, its text, and what it would fetch."""

from html.parser import HTMLParser

_VOID = {"meta", "link", "br", "hr", "col"}


class Page(HTMLParser):
    """What a page is made of.

    ``tags`` each start tag with the names of its attributes; ``attributes`` with their values;
    ``texts`` what is seen, piece by piece; ``problems`` tags that do not fit.
    """

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.attributes, self.texts, self.problems = [], [], [], []
        self.comments = []
        self._open = []
        self.feed(text)
        self.close()
        if self._open:
            self.problems.append(f"never closed: {self._open}")

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, tuple(name for name, _ in attrs)))
        self.attributes.append((tag, dict(attrs)))
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, tuple(name for name, _ in attrs)))
        self.attributes.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        if not self._open or self._open.pop() != tag:
            self.problems.append(f"</{tag}> does not fit")

    def handle_comment(self, data):
        self.comments.append(data)

    def handle_data(self, data):
        if "style" not in self._open and "svg" not in self._open:
            self.texts.append(data)

    @property
    def text(self):
        """What is read, white space folded."""
        return " ".join(" ".join(self.texts).split())

    def of(self, *tags):
        """The attributes of every element of some tags."""
        return [attrs for tag, attrs in self.attributes if tag in tags]

    @property
    def headings(self):
        """The levels of the headings in order."""
        return [int(tag[1]) for tag, _ in self.tags if len(tag) == 2 and tag[1].isdigit()]
