"""Events in, standing out; the only package that knows SQLite.

The data of each kind of event (ids of modules, lessons, lines, rigs and items throughout):

joined, left, returned   nothing
trainer-named            basis (why he can judge the work; "" when he is cleared himself)
trainer-ended            why
taught                   module, lessons; for a re-brief also edition and rebrief: true;
                         perhaps minutes, language
sheets-shown             rig
issued                   paper (the whole of it, see papers_kept.py)
marked                   paper (its code), verdicts, right, items, cut, must_missed, passed,
                         practice, how
oral                     module, item, right_in_a_row, paper (the code of the paper it mends),
                         fresh (the seeds of what was asked); alone: true when the trainer who
                         marked the paper asked, being the shop's only one
signed-off               module, rig ("" where none matters), edition,
                         lines: {id: "yes", "not yet" or "told"}
suspended, restored      module ("" for all work), why
incident                 what, module (the skill it speaks against, or ""), near_miss
changed                  module, rig ("" for every rig), cause ("hazard", "equipment" or
                         "strength_test"), what: the crew is to be seen again at that work
exception                module, allow: "try", why
under-age                until (the day from which the person may be cleared for a duty)
voided                   number, why
edition                  module, edition, lessons, must (ids of its must lines)

A name in `by` is a statement, not a login.
"""
