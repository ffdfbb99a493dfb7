// Which pages a search puts first: those whose title begins with what was typed, then the usual.
const asked = (new URLSearchParams(window.location.search).get("q") || "").trim().toLowerCase();
var Scorer = {
  score: ([page, title, , , score]) => {
    const name = title.toLowerCase().replace(/^woodref[ .]/, "");
    if (!asked || !name.startsWith(asked)) return score;
    return score + (name === asked || name.startsWith(asked + " (") ? 60 : 30);
  },
  objNameMatch: 11,
  objPartialMatch: 6,
  objPrio: { 0: 15, 1: 5, 2: -5 },
  objPrioDefault: 0,
  title: 15,
  partialTitle: 7,
  term: 5,
  partialTerm: 2,
};
