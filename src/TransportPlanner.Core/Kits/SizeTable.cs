using System.Globalization;

namespace TransportPlanner.Core.Kits;

/// <summary>An inclusive range of an input; an end that is null is open.</summary>
internal sealed record Band
{
    public double? Min { get; init; }
    public double? Max { get; init; }

    internal bool Contains(double value) => !(value < Min) && !(value > Max);

    internal string Words(string unit) => (Min, Max) switch
    {
        ({ } min, { } max) when min == max => FormattableString.Invariant($"{min:#,0.#} {unit}"),
        ({ } min, { } max) => FormattableString.Invariant($"{min:#,0.#} to {max:#,0.#} {unit}"),
        (null, { } max) => FormattableString.Invariant($"up to {max:#,0.#} {unit}"),
        ({ } min, null) => FormattableString.Invariant($"from {min:#,0.#} {unit}"),
        (null, null) => $"any {unit}",
    };
}

internal enum FormulaInput { Weight, Gestation }

/// <summary>Times × x + Plus, where x is the weight in kilograms or the gestation in weeks, or the natural logarithm of it.</summary>
internal sealed record SizeFormula(FormulaInput Of, double Times, double Plus)
{
    public bool NaturalLogarithm { get; init; }

    /// <summary>The value for a weight in kilograms or a gestation in weeks, not rounded.</summary>
    internal double At(double input) => (Times * (NaturalLogarithm ? Math.Log(input) : input)) + Plus;

    internal double? InputOf(KitQuery query) => Of == FormulaInput.Weight ? query.WeightGrams / 1000.0 : query.GestationWeeks;
}

/// <summary>One row of a source: a value or range, a formula, or a rule in words, for the bands it names.</summary>
internal sealed record SizeRow(string Id, string Source)
{
    public Band? WeightGrams { get; init; }
    public Band? GestationWeeks { get; init; }
    public Band? TubeMillimetres { get; init; }
    public double? Low { get; init; }
    public double? High { get; init; }
    public SizeFormula? Formula { get; init; }
    public string? Text { get; init; }
    public bool Confirm { get; init; }

    /// <summary>The day on which the row was written down from memory, or beside an edition that was revised since.</summary>
    public DateOnly? Recalled { get; init; }

    /// <summary>Kept in sight but not offered as the size to carry.</summary>
    public bool Alternative { get; init; }
    public string? Note { get; init; }

    internal bool ByWeight(KitQuery query) => WeightGrams is { } band && query.WeightGrams is { } grams && band.Contains(grams);

    internal bool ByGestation(KitQuery query) => GestationWeeks is { } band && query.GestationWeeks is { } weeks && band.Contains(weeks);

    internal bool UsesWeight => WeightGrams is not null || Formula is { Of: FormulaInput.Weight };

    internal bool UsesGestation => GestationWeeks is not null || Formula is { Of: FormulaInput.Gestation };
}

/// <summary>
/// What a size table says for one infant: its rows, the values to carry in one line, the spare sizes, and whether a person must decide.
/// The measures disagree where weight and gestation are both known and no row holds for both.
/// </summary>
internal sealed record SizeReading(
    IReadOnlyList<KitSize> Sizes, string Text, string? Spare, bool NeedsConfirmation, bool MeasuresDisagree)
{
    internal IEnumerable<KitSize> Offered => Sizes.Where(size => size.Offered);
}

/// <summary>
/// Sizes of one thing by weight, gestation or tube, as the sources print them. Overlapping rows are all kept. An empty unit is a plain
/// size number.
/// </summary>
internal sealed record SizeTable(string Unit, int Decimals, IReadOnlyList<SizeRow> Rows)
{
    private const int MostValuesInOneLine = 4;

    /// <summary>Also carry one step smaller and one step larger.</summary>
    public double? SpareStep { get; init; }

    internal SizeReading Read(KitQuery query, IReadOnlyList<double> tubeMillimetres, IReadOnlyDictionary<string, RuleSource> sources)
    {
        var spans = !(query.WeightGrams is not null && Rows.Any(row => row.UsesWeight))
            && !(query.GestationWeeks is not null && Rows.Any(row => row.UsesGestation))
            && Rows.Any(row => row.UsesWeight || row.UsesGestation);
        var matched = Rows.Where(row => Matches(row, query, tubeMillimetres, spans)).ToList();
        var sizes = matched.Select(row => Size(row, query, spans, sources)).ToList();
        var offered = sizes.Where(size => size.Offered).ToList();
        var numbers = offered.Where(size => size.Low is not null).DistinctBy(size => size.Text).ToList();
        sizes = sizes.ConvertAll(size => size.Offered ? size : AsSpare(size, numbers));
        var missing = (query.WeightGrams is null && Rows.Any(row => row.UsesWeight))
            || (query.GestationWeeks is null && Rows.Any(row => row.UsesGestation));
        var confirm = missing || offered.Count == 0 || numbers.Count > 1 || matched.Any(row => row.Confirm);
        return new SizeReading(sizes, OneLine(offered, numbers), Spare(numbers), confirm, Disagree(query, matched));
    }

    private static bool Matches(SizeRow row, KitQuery query, IReadOnlyList<double> tubeMillimetres, bool spans)
    {
        if (row.TubeMillimetres is { } tubes)
            return tubeMillimetres.Any(tubes.Contains);
        if (row.Formula is { } formula && formula.InputOf(query) is null)
            return true;
        return row is { WeightGrams: null, GestationWeeks: null } || spans || row.ByWeight(query) || row.ByGestation(query);
    }

    private KitSize Size(SizeRow row, KitQuery query, bool spans, IReadOnlyDictionary<string, RuleSource> sources)
    {
        var low = row.Formula is { } formula ? formula.InputOf(query) is { } input ? formula.At(input) : null : row.Low;
        var high = row.High ?? low;
        var text = low is null ? row.Text : WithUnit(low == high ? Number(low) : $"{Number(low)}–{Number(high)}");
        return new KitSize(
            row.Id, text ?? "", low, high, Basis(row, query, spans), !row.Alternative,
            low is not null && row.Text is not null ? Joined(row.Text, row.Note) : row.Note, row.Recalled, sources[row.Source]);
    }

    private static string Joined(string? rule, string? note) => rule is null ? note! : note is null ? rule : $"{rule}. {note}";

    private static string Basis(SizeRow row, KitQuery query, bool spans)
    {
        if (row.TubeMillimetres is { } tubes)
            return $"tube {tubes.Words("mm")}";
        if (spans && row is not { WeightGrams: null, GestationWeeks: null })
        {
            return string.Join(" or ", new[] { row.WeightGrams?.Words("g"), row.GestationWeeks?.Words("weeks") }.OfType<string>());
        }

        List<string> by = [];
        if (row.ByWeight(query) || (row.Formula is { Of: FormulaInput.Weight } && query.WeightGrams is not null))
            by.Add(FormattableString.Invariant($"weight {query.WeightGrams:N0} g"));
        if (row.ByGestation(query) || (row.Formula is { Of: FormulaInput.Gestation } && query.GestationWeeks is not null))
            by.Add(FormattableString.Invariant($"gestation {query.GestationWeeks} weeks"));
        return by.Count > 0 ? string.Join(", ", by)
            : row.UsesWeight ? "weight not known"
            : row.UsesGestation ? "gestation not known"
            : "every infant";
    }

    private string OneLine(List<KitSize> offered, List<KitSize> numbers)
    {
        if (offered.Count == 0)
            return "no rule covers this infant: a local decision";
        if (numbers.Count == 0)
            return string.Join(" or ", offered.Select(size => size.Text).Distinct());
        var line = numbers.Count > MostValuesInOneLine
            ? $"{Number(numbers.Min(size => size.Low))} to {Number(numbers.Max(size => size.High))}"
            : string.Join(" or ", numbers.Select(size => size.Low == size.High ? Number(size.Low) : $"{Number(size.Low)}–{Number(size.High)}"));
        var inWords = offered.Where(size => size.Low is null).Select(size => size.Text).Distinct();
        return string.Join(" or ", inWords.Prepend(WithUnit(line)));
    }

    private string? Spare(List<KitSize> numbers)
    {
        if (SpareStep is not { } step || numbers.Count == 0)
            return null;
        var carried = numbers.Select(size => size.Low!.Value).Order().ToList();
        // Which of several is right a person says first: the spares are those beside that one.
        return carried.Count == 1
            ? WithUnit($"{Number(carried[0] - step)} and {Number(carried[0] + step)}")
            : $"{WithUnit(Number(step))} either side of the one confirmed ({Number(carried[0] - step)} to {Number(carried[^1] + step)})";
    }

    /// <summary>A size that no rule offers by itself and that lies one step beside one that is: it travels, and the note says as what.</summary>
    private KitSize AsSpare(KitSize size, List<KitSize> numbers)
    {
        if (SpareStep is not { } step || size.Low is not { } low)
            return size;
        var beside = numbers.Where(number => Math.Abs(Math.Abs(number.Low!.Value - low) - step) < 1e-9).Select(number => number.Text).ToList();
        return beside.Count == 0 ? size : size with { Note = Joined(size.Note?.TrimEnd('.'), $"It travels as the spare beside {string.Join(" or ", beside)}, if that is confirmed.") };
    }

    private static bool Disagree(KitQuery query, List<SizeRow> matched) =>
        matched.Any(row => row.ByWeight(query)) && matched.Any(row => row.ByGestation(query))
        && !matched.Any(row => row.ByWeight(query) && row.ByGestation(query));

    private string Number(double? value) =>
        Math.Round(value!.Value, Decimals, MidpointRounding.AwayFromZero)
            .ToString(FormattableString.Invariant($"F{Decimals}"), CultureInfo.InvariantCulture);

    private string WithUnit(string number) => Unit.Length == 0 ? $"size {number}" : $"{number} {Unit}";
}
