"""Promises about days and weeks, tried on random ones; `run` runs them with its own lines and pantry."""

from comparing import at_most, ranges, report, same

ENDS = ("low", "best", "high")


def add(ranges_of):
    """Ends of several ranges added up; None where one is unknown."""
    return tuple(None if any(one[end] is None for one in ranges_of) else sum(one[end] for one in ranges_of) for end in ENDS)


def body_of(lines):
    return "".join(f"        {line}\n" for line in lines)


def day_text(name, meals, loose=(), head=""):
    text = "".join(f'    meal "Meal {at}" {{\n{body_of(lines)}    }}\n' for at, lines in enumerate(meals))
    return f'day "{name}"{head} {{\n{text}{body_of(loose)}}}\n'


def make_promises(pantry, lines, recipe):
    """The promises, for a pantry and makers of random lines and recipes."""

    def a_day_is_the_sum_of_its_meals(random_source):
        meals = [lines(random_source) for _ in range(random_source.randint(1, 4))]
        loose = lines(random_source) if random_source.random() < 0.5 else []
        day = report({"a.quern": pantry + day_text("Day", meals, loose)})["days"][0]
        wholes = [meal["per_meal"] for meal in day["meals"]] + ([day["in_no_meal"]] if loose else [])
        return [f"{key}: {day['per_day'][key]} is not {add([whole[key] for whole in wholes])}"
                for key, total in day["per_day"].items()
                for end, wanted in zip(ENDS, add([whole[key] for whole in wholes]))
                if end == "low" and total["low"] is not None and not same(total["low"], sum(whole[key]["low"] for whole in wholes))
                or end != "low" and not same(total[end], wanted)]

    def a_day_of_one_serving_is_that_serving(random_source):
        servings, body = random_source.randint(1, 6), lines(random_source)
        text = pantry + recipe("A", servings, body) + day_text("Day", [['1 serving "A"']])
        document = report({"a.quern": text})
        theirs = dict(ranges(document["recipes"][0]["per_serving"] or {}))
        ours = dict(ranges(document["days"][0]["per_day"]))
        return [f"{path}: {ours.get(path)} is not {one}" for path, one in theirs.items()
                if not all(same(one[end], ours[path][end]) for end in ENDS)]

    def order_of_meals_does_not_matter(random_source):
        meals = [lines(random_source) for _ in range(3)]
        one = report({"a.quern": pantry + day_text("Day", meals)})["days"][0]["per_day"]
        other = report({"a.quern": pantry + day_text("Day", meals[::-1])})["days"][0]["per_day"]
        theirs = dict(ranges(other))
        return [path for path, found in ranges(one) if not all(same(found[end], theirs[path][end]) for end in ENDS)]

    def a_week_of_one_day_is_that_day(random_source):
        times = random_source.randint(1, 7)
        text = pantry + day_text("Day", [lines(random_source)]) + 'week "Week" {\n' + '    day "Day"\n' * times + "}\n"
        document = report({"a.quern": text})
        day, week = document["days"][0]["per_day"], document["weeks"][0]["average"]
        return [f"{key}: {week[key]} is not {one}" for key, one in day.items() if not all(same(one[end], week[key][end]) for end in ENDS)]

    def an_average_lies_between_its_days(random_source):
        names = [f"Day {at}" for at in range(random_source.randint(2, 5))]
        text = pantry + "".join(day_text(name, [lines(random_source)]) for name in names)
        text += 'week "Week" {\n' + "".join(f'    day "{name}"\n' for name in names) + "}\n"
        document = report({"a.quern": text})
        week, faults = document["weeks"][0], []
        for key, found in week["by_nutrient"].items():
            values = [day["per_day"][key] for day in document["days"]]
            complete = [value for value in values if value["complete"]]
            if found["complete_days"] != len(complete):
                faults.append(f"{key}: {found['complete_days']} complete days, not {len(complete)}")
            if week["average"][key]["complete"] != (len(complete) == len(values)):
                faults.append(f"{key}: complete is {week['average'][key]['complete']}")
            mean = found["average_of_complete_days"]
            if complete and not (at_most(min(one["best"] for one in complete), mean["best"]) and at_most(mean["best"], max(one["best"] for one in complete))):
                faults.append(f"{key}: {mean} of {complete}")
        return faults

    def bounds(random_source):
        sodium, share = random_source.randint(50, 5000), random_source.choice([0.2, 0.5, 1, 2, 5, 20])
        return "".join(f"    {line}\n" for line in (
            f"limit sodium at most {sodium} mg", f"limit sodium at least {sodium} mg", f"limit sodium under {sodium // 20 + 1} mmol",
            f"limit sodium to potassium at most {share} by mass", f"limit sodium to potassium under {share} by moles",
            f"limit sodium at most {sodium} mg per 1000 kcal", f"limit sodium from cook-added at most {sodium} mg"))

    def a_week_of_one_day_is_judged_as_that_day(random_source):
        held, times = bounds(random_source), random_source.randint(1, 4)
        text = pantry + day_text("Day", [lines(random_source)])[:-2] + held + "}\n"
        document = report({"a.quern": text + 'week "Week" {\n' + held + '    day "Day"\n' * times + "}\n"})
        ours, theirs = document["weeks"][0]["limits"], document["days"][0]["limits"]
        return [f"{one['nutrient']} per {one['per']}: {one['outcome']} {one['value']}, the day {other['outcome']} {other['value']}"
                for one, other in zip(ours, theirs, strict=True)
                if one["outcome"] != other["outcome"] or one["furthest_day"]["outcome"] != other["outcome"]
                or not all(same(one["value"][end], other["value"][end]) for end in ENDS)]

    def what_all_days_keep_the_week_keeps(random_source):
        held, names = bounds(random_source), [f"Day {at}" for at in range(random_source.randint(2, 4))]
        text = pantry + "".join(day_text(name, [lines(random_source)])[:-2] + held + "}\n" for name in names)
        document = report({"a.quern": text + 'week "Week" {\n' + held + "".join(f'    day "{name}"\n' for name in names) + "}\n"})
        faults = []
        for at, limit in enumerate(document["weeks"][0]["limits"]):
            outcomes = {day["limits"][at]["outcome"] for day in document["days"]}
            if len(outcomes) == 1 and "in doubt" not in outcomes and limit["outcome"] not in outcomes:
                faults.append(f"{limit['nutrient']} per {limit['per']}: the week {limit['outcome']}, every day {outcomes}")
            worst = "broken" if "broken" in outcomes else "in doubt" if "in doubt" in outcomes else "kept"
            if limit["furthest_day"]["outcome"] != worst:
                faults.append(f"{limit['nutrient']}: furthest is {limit['furthest_day']}, of {outcomes}")
        return faults

    return [a_week_of_one_day_is_judged_as_that_day, what_all_days_keep_the_week_keeps, a_day_is_the_sum_of_its_meals, a_day_of_one_serving_is_that_serving, order_of_meals_does_not_matter,
            a_week_of_one_day_is_that_day, an_average_lies_between_its_days]
