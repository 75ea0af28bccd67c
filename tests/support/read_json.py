# SPDX-License-Identifier: MIT
#
# read_json.py check FILE...: one line for each file, "sound" or what is wrong with it as JSON.
# read_json.py values FILE PATHS: the values at the paths that stand in PATHS, one a line, each as
# JSON on one line; "nothing" where a path leads nowhere. A path is "motors[0].wind_to_turns";
# "motors[*].id" is the list of all, "motors.#" the number of them.
import json
import re
import sys


def members(pairs):
    keys = [key for key, _ in pairs]
    twice = {key for key in keys if keys.count(key) > 1}
    if twice:
        raise ValueError(f"keys that stand twice: {sorted(twice)}")
    return dict(pairs)


def refused(word):
    raise ValueError(f"{word} is no number of JSON")


def read(path):
    with open(path, "rb") as file:
        text = file.read().decode("utf-8")
    return json.loads(text, object_pairs_hook=members, parse_constant=refused)


def at(value, steps):
    for i, step in enumerate(steps):
        if step == "[*]":
            return [at(one, steps[i + 1 :]) for one in value]
        if step == "#":
            value = len(value)
        elif step.startswith("["):
            value = value[int(step[1:-1])]
        else:
            value = value[step]
    return value


def verdict(path):
    try:
        read(path)
    except ValueError as fault:
        return f"{fault}".replace("\n", " ")
    return "sound"


def value_text(value, path):
    try:
        return json.dumps(at(value, re.findall(r"\[[^]]+\]|[^.\[]+", path)), ensure_ascii=False)
    except (KeyError, IndexError, TypeError):
        return "nothing"


sys.stdout.reconfigure(encoding="utf-8")
if sys.argv[1] == "check":
    for name in sys.argv[2:]:
        print(verdict(name))
else:
    whole = read(sys.argv[2])
    with open(sys.argv[3], encoding="utf-8") as paths:
        for line in paths:
            print(value_text(whole, line.rstrip("\n")))
