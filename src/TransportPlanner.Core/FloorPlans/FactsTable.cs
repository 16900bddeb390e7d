using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// The facts of a plan as a table to be edited in a spreadsheet: one row a place, known by its number; the row of an elevator car holds
/// the facts of its elevator too. Outlines, passages and stops are not in it.
/// </summary>
public static class FactsTable
{
    /// <summary>Columns that hold how a fact is known end in this.</summary>
    public const string KnownSuffix = " known";
    private const string ElevatorPrefix = "elevator ";
    private const string Number = "number";

    /// <summary>Shown for the reader, not taken back: the level, and what ties an elevator to the building.</summary>
    internal static readonly HashSet<string> Fixed = ["number", "level", "group", "car"];

    internal static readonly HashSet<string> LeftOut = ["geometry", "standingPoint", "stops"];

    /// <summary>Names of the columns, in the order of <see cref="Rows"/>.</summary>
    public static ImmutableArray<string> Columns { get; } = [.. Cells(PlanSchema.BlankPlace, PlanSchema.BlankElevator).Select(cell => cell.Column)];

    /// <summary>One row a place in the order of the numbers. An empty cell is an unknown fact or none.</summary>
    public static IEnumerable<ImmutableArray<string>> Rows(FloorPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var elevators = plan.Elevators.ToLookup(elevator => elevator.Car, StringComparer.Ordinal);
        return CanonicalOrder.Of(plan).Places.Select(place => elevators[place.Number].FirstOrDefault() is { } elevator
            ? Cells(place, elevator).Select(cell => cell.Text).ToImmutableArray()
            : [.. Cells(place, PlanSchema.BlankElevator).Select(cell => cell.Column.StartsWith(ElevatorPrefix, StringComparison.Ordinal) ? "" : cell.Text)]);
    }

    /// <summary>
    /// The plan with the facts of a table. Columns and rows that are not there leave what is known; an emptied cell makes its fact unknown,
    /// whatever is left in the cell beside it.
    /// </summary>
    /// <param name="plan">The plan that the table was made from.</param>
    /// <param name="header">Names of columns, in any order; <c>number</c> is needed.</param>
    /// <param name="rows">Each row with its number in the file, for the findings.</param>
    /// <returns>The plan, or every fault with row, column and what to give.</returns>
    public static FloorPlanReading Read(FloorPlan plan, IReadOnlyList<string> header, IEnumerable<(int Row, IReadOnlyList<string> Cells)> rows)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(header);
        ArgumentNullException.ThrowIfNull(rows);
        var findings = header.Where((name, i) => !Columns.Contains(name) || header.Take(i).Contains(name)).Select(name => FloorPlanCheck.Error(
            "row 1", name, $"Row 1: the column \"{name}\" is {(Columns.Contains(name) ? "there twice" : "none of the table of facts")}: take the names of the exported table.")).ToList();
        if (!header.Contains(Number))
        {
            findings.Add(FloorPlanCheck.Error("row 1", Number, $"Row 1: there is no column {Number}: it says which place a row is about."));
        }

        findings.AddRange(header.Where(name => name.EndsWith(KnownSuffix, StringComparison.Ordinal) && !header.Contains(name[..^KnownSuffix.Length])).Select(name =>
            FloorPlanCheck.Error("row 1", name, $"Row 1: the column {name} says how a figure is known, and the column {name[..^KnownSuffix.Length]} is not there: give both.")));
        if (findings.Count > 0)
        {
            return FloorPlanReading.Refused(findings);
        }

        var places = plan.Places.ToDictionary(place => place.Number, StringComparer.Ordinal);
        var elevators = plan.Elevators.ToDictionary(elevator => elevator.Car, StringComparer.Ordinal);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var at = header.ToList().IndexOf(Number);
        foreach (var (row, cells) in rows)
        {
            var number = at < cells.Count ? cells[at] : "";
            if (!places.TryGetValue(number, out var place) || !seen.Add(number))
            {
                findings.Add(FloorPlanCheck.Error($"row {row}", Number, seen.Contains(number)
                    ? (FormattableString)$"Row {row}, column {Number}: {number} has a row above already: keep one."
                    : $"Row {row}, column {Number}: the plan has no place \"{number}\": correct the number or remove the row."));
                continue;
            }

            if (cells.Skip(header.Count).Any(cell => cell.Trim().Length > 0))
            {
                findings.Add(FloorPlanCheck.Error($"row {row}", "columns", $"Row {row} has {cells.Count} cells, and there are {header.Count} columns: put a text that holds the divider between quotes."));
                continue;
            }

            var texts = header.Select((name, i) => (name, Text: i < cells.Count ? cells[i].Trim() : "")).ToDictionary(cell => cell.name, cell => cell.Text, StringComparer.Ordinal);
            places[number] = PlanSchema.Place(new CellReader(texts, "", $"row {row}", $"Row {row}, column ", findings), place);
            if (elevators.TryGetValue(number, out var elevator))
            {
                elevators[number] = PlanSchema.Elevator(new CellReader(texts, ElevatorPrefix, $"row {row}", $"Row {row}, column ", findings), elevator);
            }
            else if (texts.FirstOrDefault(cell => cell.Key.StartsWith(ElevatorPrefix, StringComparison.Ordinal) && cell.Value.Length > 0).Key is { } stray)
            {
                findings.Add(FloorPlanCheck.Error($"row {row}", stray, $"Row {row}, column {stray}: {number} is no car of an elevator: empty the cell."));
            }
        }

        return findings.Count > 0 ? FloorPlanReading.Refused(findings) : FloorPlanReading.Read(plan with
        {
            Places = [.. plan.Places.Select(place => places[place.Number])],
            Elevators = [.. plan.Elevators.Select(elevator => elevators[elevator.Car])],
        });
    }

    private static IEnumerable<(string Column, string Text)> Cells(Place place, Elevator elevator) =>
        Cells(PlanRecord.Of(place, PlanSchema.Place), "").Concat(Cells(PlanRecord.Of(elevator, PlanSchema.Elevator).Where(member => !Fixed.Contains(member.Name)), ElevatorPrefix));

    private static IEnumerable<(string Column, string Text)> Cells(IEnumerable<(string Name, string? Value, string? Source, bool IsFact)> members, string prefix)
    {
        foreach (var (name, value, source, isFact) in members.Where(member => !LeftOut.Contains(member.Name)))
        {
            yield return (prefix + name, CellText(value) ?? "");
            if (isFact)
            {
                yield return (prefix + name + KnownSuffix, source ?? "");
            }
        }
    }

    /// <summary>[1,2,4] is written 1 2 4, which a spreadsheet leaves alone.</summary>
    internal static string? CellText(string? value) => value is ['[', ..] ? value[1..^1].Replace("\"", "", StringComparison.Ordinal).Replace(',', ' ') : value;

    internal static string Escaped(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal);
}
