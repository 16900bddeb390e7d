using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Plans;

/// <summary>The cylinders of the start page: the first of each gas, and further rows in which the gas is chosen.</summary>
internal static class PlanCylinders
{
    /// <summary>As many as a request takes, with those of the first two rows.</summary>
    public const int MostFurther = 10;

    /// <summary>Each cylinder of a request with the prefix of its fields on the page: <c>Oxygen</c>, <c>Air</c>, <c>More[0]</c>.</summary>
    public static IEnumerable<(string Field, CylinderRequest Cylinder)> Fields(IReadOnlyList<CylinderRequest> cylinders)
    {
        var first = Enum.GetValues<GasKind>().Select(gas => cylinders.FirstOrDefault(cylinder => cylinder.Gas == gas)).ToList();
        var further = 0;
        return cylinders.Select(cylinder => (first.Exists(one => ReferenceEquals(one, cylinder)) ? $"{cylinder.Gas}" : $"More[{further++}]", cylinder));
    }

    /// <summary>What was typed, with the problems in <paramref name="entries"/>. A row that shows just what the plan had before stands as it was given.</summary>
    public static IReadOnlyList<CylinderRequest> Read(PlanForm form, CylinderChoice choice, PlanRequest? before, Entries entries)
    {
        List<CylinderRequest> read = [.. Rows(form, choice, before, entries)];
        // Where nothing was changed they keep their numbers too.
        return before is not null && read.Count == before.Cylinders.Count && read.TrueForAll(cylinder => before.Cylinders.Any(had => ReferenceEquals(had, cylinder)))
            ? before.Cylinders
            : read;
    }

    private static IEnumerable<CylinderRequest> Rows(PlanForm form, CylinderChoice choice, PlanRequest? before, Entries entries)
    {
        var earlier = before is null ? [] : Fields(before.Cylinders).ToDictionary(pair => pair.Field, pair => pair.Cylinder);
        // Without empty rows between them, a row has the place of its cylinder in the request.
        form.More = [.. form.More.Where(entry => !entry.IsEmpty)];
        Dictionary<GasKind, int> count = new() { [GasKind.Oxygen] = 1, [GasKind.Air] = 1 };
        var rows = new[] { ("Oxygen", GasKind.Oxygen, form.Oxygen), ("Air", (GasKind?)GasKind.Air, form.Air) }
            .Concat(form.More.Select((entry, row) => ($"More[{row}]", entry.Gas, entry)));
        foreach (var (field, chosen, typed) in rows)
        {
            if (chosen is not { } gas)
            {
                entries.Need($"{field}.Gas", given: false, "Choose oxygen or air for this cylinder, or empty its row.");
                continue;
            }

            var name = field.StartsWith("More", StringComparison.Ordinal) ? $"{GasWords.Of(gas)} {++count[gas]}" : GasWords.Of(gas);
            if (earlier.TryGetValue(field, out var given) && given.Gas == gas && CylinderEntry.Of(given, form.PressureUnit).IsSame(typed) && given.Find(choice) is CylinderAnswer.Found)
            {
                yield return given;
                continue;
            }

            var missing = new Entries();
            var read = CylinderEntry.Read(field, name, gas, typed, form.PressureUnit, choice, entries, missing);
            foreach (var problem in missing.Problems)
            {
                entries.Need(problem.Field, given: false, $"Give {problem.Words}.");
            }

            if (read is not null)
            {
                yield return read;
            }
        }
    }
}
