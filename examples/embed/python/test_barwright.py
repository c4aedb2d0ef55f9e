"""examples/embed/python/test_barwright.py - the Python module, asked by Python

    PYTHONPATH=<folder of the module> python3 test_barwright.py

All sets are invented.
SPDX-License-Identifier: BSL-1.0
"""

import ast
import contextlib
import datetime
import io
import json
import pathlib
import re
import threading
import tracemalloc
import unittest

import barwright as bw
import next_session
import numpy as np

HERE = pathlib.Path(__file__).resolve().parent


def bytes_of(*values):
    return np.array(values, dtype=np.uint8)


class OneSet(unittest.TestCase):
    def test_a_max_is_what_the_published_equation_says(self):
        # Brzycki 1993: load x 36 / (37 - reps) (read); Epley 1985: load x (1 + reps / 30)
        # (from memory).
        self.assertAlmostEqual(bw.one_rep_max(100, 5, 2, "Brzycki"), 100 * 36 / 30)
        self.assertAlmostEqual(bw.one_rep_max(100, 7, equation="Epley"), 100 * (1 + 7 / 30))

    def test_a_load_comes_from_the_planner_alone(self):
        self.assertFalse(hasattr(bw, "load_for"))

    def test_what_is_refused_says_what_is_allowed(self):
        for arguments, message in [
            ((100, 0), "reps must be a whole number from 1 to 100; got 0"),
            ((float("nan"), 5), "a load must be a number of kilograms from 0 to 1000000; got nan"),
            ((100, 5, 0.3), "reps in reserve must be a number from 0 to 30 in steps of 0.5;"
             " got 0.3"),
        ]:
            with self.assertRaises(ValueError) as caught:
                bw.one_rep_max(*arguments)
            self.assertEqual(str(caught.exception), message)
        with self.assertRaisesRegex(ValueError, "a curve must be one of the published ones"):
            bw.one_rep_max(100, 5, 0, "nobody")


class Plates(unittest.TestCase):
    def test_a_long_message_ends_with_a_whole_character(self):
        for pad in range(4):
            with self.assertRaisesRegex(ValueError, " must be ") as caught:
                bw.Room("a" * pad + "\U0001F600" * 70)
            self.assertNotIn("\N{REPLACEMENT CHARACTER}", str(caught.exception))
            self.assertTrue(str(caught.exception).endswith("\U0001F600"))

    def test_what_was_never_initialised_cannot_be_read(self):
        with self.assertRaisesRegex(TypeError, "never initialised"):
            bw.Loading.__new__(bw.Loading).total_kg
        with self.assertRaisesRegex(TypeError, "never initialised"):
            bw.Room.__new__(bw.Room).nearest(50)
        with self.assertRaisesRegex(TypeError, "never initialised"):
            bw.CurveLattice.__new__(bw.CurveLattice).one_rep_max([100.0], bytes_of(5), bytes_of(4))

    def test_plates_add_up_or_there_is_no_answer(self):
        room = bw.Room("bar 20 kg; plates 25x1 10 2.5 kg")
        loading = room.at_most(96)
        self.assertEqual(loading.total_kg, 95)
        self.assertEqual(loading.plates_kg, [25, 10, 2.5])
        self.assertEqual(str(loading), "20 kg bar + 25, 10, 2.5 each side = 95 kg")
        self.assertIsNone(room.at_most(19))
        self.assertEqual(room.nearest(0).total_kg, 20)


class Planner(unittest.TestCase):
    """What it decides is tested in C++ and by check_requests.py; here is what Python adds."""

    today = datetime.date(2026, 11, 25)

    def ask(self, **members):
        return bw.ask({"version": 1, "ask": "plan_session", "lift": "bench press",
                       "date": self.today, "stated_max_kg": 100, "spotter": True, **members})

    def test_an_answer_is_of_pythons_own_values(self):
        plan = self.ask(id="a", left=2)
        self.assertEqual((plan["outcome"], plan["id"], plan["date"]), ("plan", "a", "2026-11-25"))
        self.assertIsInstance(plan["load_kg"], float | int)
        self.assertEqual(plan["sets"][-1]["load_kg"], plan["load_kg"])
        self.assertTrue(any("qualified coach" in caution["text"] for caution in plan["cautions"]))

    def test_text_and_values_are_answered_alike(self):
        request = {"version": 1, "ask": "plan_session", "lift": "bench press", "date": "2026-11-25",
                   "stated_max_kg": 100}
        self.assertEqual(json.loads(bw.answer(json.dumps(request))), bw.ask(request))

    def test_what_is_wrong_is_an_answer_too(self):
        self.assertEqual(self.ask(reserv=2)["outcome"], "bad_request")
        self.assertEqual(self.ask(left=-2)["at"], "left")
        self.assertEqual(bw.ask([])["outcome"], "bad_request")
        self.assertEqual(json.loads(bw.answer("\0"))["outcome"], "bad_request")
        with self.assertRaises(ValueError):
            self.ask(left=float("nan"))
        with self.assertRaisesRegex(TypeError, "what JSON holds, and dates"):
            self.ask(room=object())

    def test_a_stop_has_no_load(self):
        # One with none left is a max attempt, though nobody says so: never on a new lift.
        stop = self.ask(log=[{"date": self.today - datetime.timedelta(3), "lift": "bench press",
                              "load_kg": 80, "reps": 5, "left": 2}], stated_max_kg=None,
                        reps=1, left=0)
        self.assertEqual((stop["outcome"], stop["cautions"][0]["severity"]), ("stop", "stop"))
        self.assertNotIn("load_kg", stop)
        self.assertNotIn("sets", stop)

    def test_many_threads_may_ask(self):
        alone = self.ask()
        answers = []
        threads = [threading.Thread(target=lambda: answers.append(self.ask())) for _ in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(answers, [alone] * 8)


class Columns(unittest.TestCase):
    def test_columns_say_what_single_sets_say(self):
        kg = np.array([100.0, 82.5, 60.0])
        reps, left = bytes_of(5, 8, 10), bytes_of(4, 3, 0)
        for equation in ("Brzycki", "Epley", "Wathen", "Lombardi"):
            curve = bw.CurveLattice(equation)
            maxes, faults = curve.one_rep_max(kg, reps, left)
            self.assertEqual(faults.tolist(), [0, 0, 0])
            loads, _ = curve.load_for(maxes, reps, left)
            halves, _ = curve.half_reps_left(maxes, loads, reps)
            self.assertEqual(halves.tolist(), left.tolist())
            for i in range(3):
                alone = bw.one_rep_max(kg[i], int(reps[i]), left[i] / 2, equation)
                self.assertAlmostEqual(maxes[i], alone, places=10)
                self.assertAlmostEqual(loads[i], kg[i])

    def test_a_row_without_sense_says_why_and_leaves_the_others_alone(self):
        kg = np.array([100.0, np.nan, 100.0, 100.0])
        maxes, faults = bw.CurveLattice("Brzycki").one_rep_max(
            kg, bytes_of(5, 5, 0, 50), bytes_of(4, 4, 4, 4))
        self.assertEqual([bw.FAULTS[f] for f in faults], ["none", "load", "reps", "curve"])
        np.testing.assert_allclose(maxes, [120.0, 0.0, 0.0, 0.0], rtol=1e-12)

    def test_columns_in_pieces_and_of_whole_numbers_are_copied_rightly(self):
        curve = bw.CurveLattice("Brzycki")
        table = np.array([[100.0, 1.0], [80.0, 2.0]])
        maxes, _ = curve.one_rep_max(table[:, 0], bytes_of(5, 9, 5, 9)[::2], bytes_of(4, 4))
        np.testing.assert_allclose(maxes, [120.0, 96.0], rtol=1e-12)
        maxes, _ = curve.one_rep_max([100, 80], bytes_of(5, 5), bytes_of(4, 4))
        np.testing.assert_allclose(maxes, [120.0, 96.0], rtol=1e-12)

    def test_large_columns_are_not_copied(self):
        # numpy tells what it allocates: the results and little else.
        rows = 1_000_000
        kg, reps, left = np.full(rows, 100.0), np.full(rows, 5, np.uint8), np.zeros(rows, np.uint8)
        curve = bw.CurveLattice("Epley")
        tracemalloc.start()
        curve.one_rep_max(kg, reps, left)
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.reset_peak()
        curve.one_rep_max(kg[::-1], reps, left)
        _, with_copies = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        results = rows * (8 + 1)
        self.assertLess(peak, 1.01 * results)
        self.assertGreater(with_copies, peak + 7 * rows)  # a column that runs backwards is copied

    def test_counts_that_would_wrap_are_refused(self):
        curve = bw.CurveLattice("Epley")
        with self.assertRaisesRegex(ValueError, "reps must be of type uint8.*; got int64"):
            curve.one_rep_max([100.0], np.array([261], np.int64), bytes_of(4))
        with self.assertRaisesRegex(ValueError, "the column of loads must be numbers"):
            curve.one_rep_max(["heavy"], bytes_of(5), bytes_of(4))
        with self.assertRaisesRegex(ValueError, "the column of loads must be numbers, in one dim"):
            curve.one_rep_max(np.ones((2, 2)), bytes_of(5), bytes_of(4))
        with self.assertRaisesRegex(ValueError, "as many as in the first: 2; got 1"):
            curve.one_rep_max([100.0, 80.0], bytes_of(5), bytes_of(4))


class Examples(unittest.TestCase):
    def test_python_prints_what_c_prints(self):
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed):
            next_session.main()
        self.assertEqual(printed.getvalue(), (HERE / "../c/next_session.txt").read_text())

    def test_the_guide_quotes_the_examples_as_they_are(self):
        guide = (HERE / "../../../docs/embedding.md").read_text()
        blocks = re.findall(r"(?ms)^```(cpp|c|python|js|text)\n(.*?)^```$", guide)
        self.assertEqual({language for language, _ in blocks},
                         {"cpp", "c", "python", "js", "text"})
        sources = [HERE / name for name in ("../cpp/next_session.cpp", "../c/next_session.c",
                                            "../c/next_session.txt", "next_session.py",
                                            "../web/next_session.mjs")]
        known = "\n".join(source.read_text() for source in sources)
        for _, block in blocks:
            if "to_json" not in block and not block.startswith('{"version"'):  # run by the guides' check
                self.assertIn(block, known)


class Stub(unittest.TestCase):
    """barwright.pyi has what the module has: names, those of parameters, and which have defaults."""

    @staticmethod
    def parameters(function):
        names = [argument.arg for argument in function.args.args]
        first_optional = len(names) - len(function.args.defaults)
        return [name + ("=" if i >= first_optional else "") for i, name in enumerate(names)]

    def members_of_stub(self, source):
        members = {}
        for node in ast.parse(source).body:
            functions = node.body if isinstance(node, ast.ClassDef) else [node]
            prefix = node.name + "." if isinstance(node, ast.ClassDef) else ""
            for function in functions:
                if isinstance(function, ast.FunctionDef):
                    is_property = bool(function.decorator_list)
                    members[prefix + function.name] = (
                        "property" if is_property else self.parameters(function))
        return members

    def members_of_module(self):
        members = {}
        for name, value in vars(bw).items():
            is_class = isinstance(value, type)
            for own, inner in vars(value).items() if is_class else [(name, value)]:
                key = f"{name}.{own}" if is_class else name
                # pybind11 says what a function takes in the first line of its docstring.
                line = (getattr(inner, "__doc__", None) or "").strip().partition("\n")[0]
                if isinstance(inner, property):
                    members[key] = "property"
                elif line.startswith(own + "(") and own not in ("__repr__", "__str__"):
                    code = "def " + line.replace("barwright.", "") + ": ..."
                    members[key] = self.parameters(ast.parse(code).body[0])
        return members

    def test_the_stub_is_of_this_module(self):
        source = (HERE / "barwright.pyi").read_text()
        stub, module = self.members_of_stub(source), self.members_of_module()
        self.assertEqual(stub, module)
        self.assertGreater(len(stub), 12)


if __name__ == "__main__":
    unittest.main()
