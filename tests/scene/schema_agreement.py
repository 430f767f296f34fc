"""The published schema and the reader agree on which scenes have the right form, and where not.

An independent validator (python3-jsonschema) judges every demo scene and many mutations of them
by the schema; the reader judges the same texts. They must agree on whether the form is right and
on the places of the faults. What no schema can say (ids that exist, days of the calendar, letters
of other scripts, what things mean together) has codes of its own and is left out here.

Usage: schema_agreement.py SCENE_VERDICTS SCENE.json ...
"""
import copy
import json
import math
import random
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import jsonschema

# The reader's codes for faults of form.
FORM = {
    "unknown_key", "unit_missing", "unit_wrong", "key_missing", "keys_exclude", "wrong_type",
    "out_of_range", "not_whole", "bad_text", "not_a_choice", "wrong_count", "not_a_scene",
    "newer_version",
}
# Of these the pointer names a key; the schema blames the object around it.
OF_KEYS = {"unknown_key", "unit_missing", "unit_wrong", "keys_exclude"}
# These stop the reader at once.
REFUSALS = {"not_a_scene", "newer_version"}
CHANGES_PER_DOCUMENT = 60
SWEPT_PER_SCENE = 500  # of the scenes after the first, which is swept whole
SINGLE_CHANGES = 30
LEAST_CHANGES = 5000
LEAST_SINGLE_RIGHT = 20


def ecma_pattern(validator, pattern, instance, schema):
    """As the library's own, but in ECMA 262 '$' does not match before a last newline."""
    if isinstance(instance, str) and not re.search(re.sub(r"\$$", r"\\Z", pattern), instance):
        yield jsonschema.ValidationError(f"{instance!r} does not match {pattern!r}")


def resolved(schema, root):
    while "$ref" in schema or "allOf" in schema and "properties" not in schema:
        schema = (root["definitions"][schema["$ref"].rsplit("/", 1)[1]]
                  if "$ref" in schema else schema["allOf"][0])
    return schema


def values(instance, schema, root, path=()):
    """Every value with its path and its schema."""
    schema = resolved(schema, root)
    yield path, instance, schema
    if isinstance(instance, dict):
        for key, value in instance.items():
            inner = schema.get("properties", {}).get(key, schema.get("additionalProperties"))
            if isinstance(inner, dict):
                yield from values(value, inner, root, path + (key,))
    elif isinstance(instance, list) and "items" in schema:
        for i, value in enumerate(instance):
            items = schema["items"]
            yield from values(value, items[i] if isinstance(items, list) else items, root,
                              path + (i,))


def other_values(value, schema, rng):
    """Values to try in place of one: at its bounds, past them, of other types, spoilt text."""
    tries = [None, True, 3, -1.5, 1e300, "x", "", [], {}, [1, 2], {"a": 1}]
    if "minimum" in schema:
        low, high = schema["minimum"], schema["maximum"]
        tries += [low, high, float(low), math.nextafter(low, -math.inf),
                  math.nextafter(high, math.inf), (low + high) / 2, low + 0.25]
    if isinstance(value, str):
        at = rng.randrange(len(value) + 1)
        tries += [value + "\n", value.upper(), value[:-1], value + "_", value * 60,
                  value[:at] + rng.choice(" -/:.é松\t\u0085\u0000") + value[at:], "02-30", "24:00"]
    if isinstance(value, list) and value:
        tries += [value[:-1], value + [value[0]], value * 30, [value]]
        tries += [(value * count)[:count] for count in
                  (schema["minItems"] - 1, schema["minItems"], schema["maxItems"],
                   schema["maxItems"] + 1) if 0 <= count <= 200]
    if isinstance(value, dict) and value:
        shorter = dict(value)
        del shorter[rng.choice(list(value))]
        tries += [shorter, {**value, "height": 1}, {**value, "colour": "red"},
                  {**value, "note": "x"}]
    return [one for one in tries if one != value or type(one) is not type(value)]


def parent_of(document, path):
    for step in path[:-1]:
        document = document[step]
    return document


class Change:
    """One change of a document, at a path that nothing else of the same document may touch."""

    def __init__(self, path, apply):
        self.path = path
        self.apply = apply


def put(path, value):
    def apply(document):
        parent_of(document, path)[path[-1]] = copy.deepcopy(value)
    return Change(path, apply)


def take_out(path):
    def apply(document):
        del parent_of(document, path)[path[-1]]
    return Change(path, apply)


def rename(path, name):
    def apply(document):
        parent = parent_of(document, path)
        parent[name] = parent.pop(path[-1])
    return Change(path, apply)


def all_changes(document, root, rng):
    """Every change that the sweep makes: at each value, and each key that an object may have."""
    places = list(values(document, root, root))
    for path, value, schema in places:
        if not path:
            continue
        for other in other_values(value, schema, rng):
            yield put(path, other)
        if isinstance(path[-1], str):
            yield take_out(path)
            for name in (path[-1][:-1], path[-1] + "_m", path[-1].rsplit("_", 1)[0] + "_ft",
                         path[-1].upper()):
                yield rename(path, name)
    for path, value, schema in places:
        if not isinstance(value, dict) or "properties" not in schema:
            continue
        for key in schema["properties"]:
            if key in value:
                continue
            known = [one for where, one, _ in places if where[-1:] == (key,)]
            yield put(path + (key,), rng.choice(known) if known else 1)


def prefixes(path):
    return [path[:i] for i in range(len(path) + 1)]


def packed(changes, most_each):
    """The changes shared out, so that no two in one document touch the same value."""
    bins = []
    for change in changes:
        inside = prefixes(change.path)
        for chosen, used, around in bins:
            if len(chosen) < most_each and change.path not in around and \
                    not any(prefix in used for prefix in inside):
                break
        else:
            chosen, used, around = [], set(), set()
            bins.append((chosen, used, around))
        chosen.append(change)
        used.add(change.path)
        around.update(inside)
    return [chosen for chosen, _, _ in bins]


def changed(document, changes):
    result = copy.deepcopy(document)
    for change in changes:
        change.apply(result)
    return result


def pointer(path):
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)


def schema_places(validator, document):
    return {pointer(error.absolute_path) for error in validator.iter_errors(document)}


def reader_places(verdict):
    places = set()
    for code, where in verdict:
        if code in FORM:
            places.add(where.rpartition("/")[0] if code in OF_KEYS else where)
    return places


def disagreement(validator, document, verdict):
    """What the two say differently, or nothing."""
    by_schema = schema_places(validator, document)
    by_reader = reader_places(verdict)
    if bool(by_schema) != bool(by_reader):
        return f"schema: {by_schema or 'right'}, reader: {by_reader or 'right'} ({verdict})"
    if {code for code, _ in verdict} & REFUSALS:
        return None if by_reader <= by_schema else f"places {by_reader} against {by_schema}"
    # Of a list that is too long the reader looks at no item.
    long_lists = {where for code, where in verdict if code == "wrong_count"}
    by_schema = {where for where in by_schema
                 if not any(where.startswith(long + "/") for long in long_lists)}
    by_reader = {where for where in by_reader
                 if not any(where.startswith(long + "/") for long in long_lists)}
    if by_schema != by_reader:
        return f"places: schema {sorted(by_schema)}, reader {sorted(by_reader)}"
    return None


def main():
    program, scenes = sys.argv[1], sys.argv[2:]
    root = json.loads(subprocess.run([program, "--schema"], check=True, capture_output=True).stdout)
    jsonschema.Draft7Validator.check_schema(root)
    judge = jsonschema.validators.extend(jsonschema.Draft7Validator, {"pattern": ecma_pattern})
    validator = judge(root)
    cases = []
    change_count = 0
    for number, name in enumerate(scenes):
        document = json.loads(Path(name).read_text(encoding="utf-8-sig"))
        rng = random.Random(1000 + number)
        changes = list(all_changes(document, root, rng))
        rng.shuffle(changes)
        # Many changes a document where they are many; one by one beside, to judge right or wrong.
        sweep = changes if number == 0 else changes[:SWEPT_PER_SCENE]
        # What makes the reader refuse the whole text stands alone, or it would hide the rest.
        alone = [one for one in sweep if one.path[0] in ("format", "version")]
        together = [one for one in sweep if one.path[0] not in ("format", "version")]
        groups = packed(together, CHANGES_PER_DOCUMENT)
        groups += [[one] for one in alone + changes[:SINGLE_CHANGES]]
        change_count += len(sweep) + SINGLE_CHANGES
        cases += [(name, document)] + [(name, changed(document, group)) for group in groups]
    with tempfile.TemporaryDirectory() as folder:
        lines = []
        for i, (name, document) in enumerate(cases):
            path = Path(folder) / f"{i}.json"
            path.write_text(json.dumps(document, ensure_ascii=i % 2 == 0), encoding="utf-8")
            lines.append(f"{path}\t{name}\n")
        answer = subprocess.run([program], input="".join(lines), check=True, capture_output=True,
                                text=True).stdout.splitlines()
    if len(answer) != len(cases):
        print(f"{len(cases)} scenes were asked, {len(answer)} answered")
        return 1
    wrong = 0
    right_forms = 0
    for (name, document), line in zip(cases, answer):
        verdict = json.loads(line)
        right_forms += not reader_places(verdict)
        said = disagreement(validator, document, verdict)
        if said:
            wrong += 1
            print(f"{name}: {said}")
    print(f"{len(cases)} documents with {change_count} changes judged, {right_forms} of right form,"
          f" {wrong} disagreements")
    is_enough = change_count >= LEAST_CHANGES and right_forms >= LEAST_SINGLE_RIGHT
    return 0 if wrong == 0 and is_enough else 1


sys.exit(main())
