using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;

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
    private static readonly HashSet<string> Fixed = ["number", "level", "group", "car"];

    private static readonly HashSet<string> LeftOut = ["geometry", "standingPoint", "stops"];

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
            places[number] = PlanSchema.Place(new CellReader(texts, "", row, findings), place);
            if (elevators.TryGetValue(number, out var elevator))
            {
                elevators[number] = PlanSchema.Elevator(new CellReader(texts, ElevatorPrefix, row, findings), elevator);
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
            // [1,2,4] is written 1 2 4, which a spreadsheet leaves alone.
            yield return (prefix + name, value is ['[', ..] ? value[1..^1].Replace("\"", "", StringComparison.Ordinal).Replace(',', ' ') : value ?? "");
            if (isFact)
            {
                yield return (prefix + name + KnownSuffix, source ?? "");
            }
        }
    }

    /// <summary>Takes the cells of one row for the members of a feature.</summary>
    private sealed class CellReader(Dictionary<string, string> texts, string prefix, int row, List<Finding> findings) : PlanFields
    {
        internal override T Required<T>(string name, T value, FieldType<T> type) =>
            Fixed.Contains(name) || !texts.TryGetValue(prefix + name, out var text) ? value : Parse(name, text, value, type);

        internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) =>
            Fixed.Contains(name) || LeftOut.Contains(name) || !texts.TryGetValue(prefix + name, out var text) ? value
            : text.Length == 0 ? absent
            : Parse(name, text, value, type);

        internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type)
        {
            if (!texts.TryGetValue(prefix + name, out var text) || text.Length == 0)
            {
                return text is null ? fact : default;
            }

            var value = Parse(name, text, fact.OrNull ?? default, type);
            var (source, asOf) = Source(name, fact.IsKnown && EqualityComparer<T>.Default.Equals(fact.Value, value) ? (fact.Source, fact.AsOf) : default);
            return new(value, source, asOf);
        }

        internal override (QuarterHourProfile? Profile, FactSource Source) Profile(string name, QuarterHourProfile? profile, FactSource source, double max)
        {
            if (!texts.TryGetValue(prefix + name, out var text) || text.Length == 0)
            {
                return text is null ? (profile, source) : (null, default);
            }

            var read = Parse(name, text, profile!, new(ProfileJson.Expected, (JsonElement json, out QuarterHourProfile value) => (value = ProfileJson.Read(json, max)!) is not null, (_, _) => { }));
            return (read, Source(name, read.Equals(profile) ? (source, null) : default).Source);
        }

        internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema)
        {
            if (LeftOut.Contains(name) || !texts.TryGetValue(prefix + name, out var text))
            {
                return items;
            }

            // Each item has its members in the order of the schema: oxygenOutlet | wall outlet | measured 2026-04-14
            var columns = PlanRecord.Of(blank, schema).Select(member => member.Name).ToArray();
            return [.. Split(text, ';').Where(item => item.Trim().Length > 0).Select(item =>
            {
                var parts = Split(item, '|').Select(part => Plain(part.Trim())).ToArray();
                var members = columns.Select((column, i) => (column, Text: i < parts.Length ? parts[i] : "")).ToDictionary(member => member.column, member => member.Text);
                if (parts.Length > columns.Length)
                {
                    Refuse(name, item, $"{string.Join(" | ", columns)}, several divided by ;");
                }

                return schema(new ItemReader(members, (_, given, expected) => Refuse(name, given, expected)), blank);
            })];
        }

        internal override T Geometry<T>(T value, FieldType<T> type) => value;

        private (FactSource Source, DateOnly? AsOf) Source(string name, (FactSource, DateOnly?) otherwise) =>
            !texts.TryGetValue(prefix + name + KnownSuffix, out var text) ? otherwise
            : text.Length == 0 ? default
            : Parse(name + KnownSuffix, text, default, FieldTypes.Source);

        private T Parse<T>(string name, string text, T value, FieldType<T> type)
        {
            if (TryParse(text, type, out var read))
            {
                return read;
            }

            Refuse(name, text, type.Expected);
            return value;
        }

        private void Refuse(string name, string text, string expected) => findings.Add(FloorPlanCheck.Error(
            $"row {row}", prefix + name, $"Row {row}, column {prefix}{name}: \"{(text.Length <= 60 ? text : text[..60] + "…")}\" is not taken: give {expected.Replace('[', ' ').Replace(']', ' ')}."));
    }

    /// <summary>Members of one item of a list.</summary>
    private sealed class ItemReader(Dictionary<string, string> members, Action<string, string, string> refuse) : PlanFields
    {
        internal override T Required<T>(string name, T value, FieldType<T> type)
        {
            if (TryParse(members[name], type, out var read))
            {
                return read;
            }

            refuse(name, members[name], type.Expected);
            return value;
        }

        internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) => members[name].Length == 0 ? absent : Required(name, value, type);
        internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type) => fact;
        internal override (QuarterHourProfile? Profile, FactSource Source) Profile(string name, QuarterHourProfile? profile, FactSource source, double max) => (profile, source);
        internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema) => items;
        internal override T Geometry<T>(T value, FieldType<T> type) => value;
    }

    /// <summary>As a word, a number, true or false, a list of numbers, a list of words: no type takes more than one of them.</summary>
    private static bool TryParse<T>(string text, FieldType<T> type, out T value)
    {
        var parts = text.Split([' ', ';', '\t', '\n'], StringSplitOptions.RemoveEmptyEntries);
        var figures = parts.Select(Figure).ToArray();
        string?[] forms =
        [
            JsonSerializer.Serialize(text),
            parts.Length == 1 ? figures[0] : null,
            text.ToLowerInvariant() is "true" or "false" ? text.ToLowerInvariant() : null,
            figures.All(figure => figure is not null) ? $"[{string.Join(',', figures)}]" : null,
            JsonSerializer.Serialize(parts),
        ];
        foreach (var form in forms.OfType<string>())
        {
            using var json = JsonDocument.Parse(form);
            if (type.Read(json.RootElement, out value))
            {
                return true;
            }
        }

        value = default!;
        return false;
    }

    /// <summary>A number as JSON; a decimal comma is read as a point, since spreadsheets of many countries write one.</summary>
    private static string? Figure(string text) =>
        double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var figure) && double.IsFinite(figure)
            ? figure.ToString("R", CultureInfo.InvariantCulture) : null;

    internal static string Escaped(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal);

    private static string Plain(string text)
    {
        var plain = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            plain.Append(text[i] == '\\' && i + 1 < text.Length ? text[++i] : text[i]);
        }

        return plain.ToString();
    }

    /// <summary>At each separator that no backslash stands before.</summary>
    private static List<string> Split(string text, char separator)
    {
        var parts = new List<string>();
        var start = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\')
            {
                i++;
            }
            else if (text[i] == separator)
            {
                parts.Add(text[start..i]);
                start = i + 1;
            }
        }

        parts.Add(text[start..]);
        return parts;
    }
}
