using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>How a figure of a limit is written.</summary>
internal sealed record Figure(string Unit, string Format, string DifferenceUnit, string DifferenceFormat, double DifferenceScale = 1)
{
    internal static Figure Length { get; } = new(" m", "0.00#", " cm", "0.#", 100);
    internal static Figure Area { get; } = new(" m²", "0.00#", " m²", "0.00#");
    internal static Figure Mass { get; } = new(" kg", "0.#", " kg", "0.#");
    internal static Figure Percent { get; } = new(" %", "0.##", " percentage points", "0.##");

    internal string Show(double value) => value.ToString(Format, CultureInfo.InvariantCulture) + Unit;
    internal string Difference(double value) => (value * DifferenceScale).ToString(DifferenceFormat, CultureInfo.InvariantCulture) + DifferenceUnit;
}

/// <summary>Collects the findings on one element: the first obstacle stays, every unknown is kept.</summary>
internal sealed class Checklist(ClosureTarget element, string id)
{
    /// <summary>Facts are kept to the millimetre; a figure that equals the need in decimals must not fail in binary.</summary>
    private const double Tolerance = 1e-9;

    private readonly List<UnknownLimit> _unknown = [];
    private Obstacle? _obstacle;

    internal ClosureTarget Element => element;
    internal string Id => id;
    internal LimitFindings Findings => new(_obstacle, [.. _unknown]);

    internal static Obstacle Avoided(UnknownLimit limit) =>
        new(limit.Kind, limit.Element, limit.Id, null, null, $"{limit.Sentence}, and unknown limits are avoided");

    internal void AtLeast(
        LimitKind kind, Fact<double> fact, double needed, string name, string what, string fails, string present, Figure? figure = null) =>
        Compare(kind, fact, needed, fact.IsKnown ? needed - fact.Value : 0, name, what, fails, present, "needed", figure ?? Figure.Length);

    internal void AtMost(LimitKind kind, Fact<double> fact, double allowed, string name, string what, string fails, Figure figure) =>
        Compare(kind, fact, allowed, fact.IsKnown ? fact.Value - allowed : 0, name, what, fails, "there", "allowed", figure);

    internal void Forbid(LimitKind kind, string sentence) => _obstacle ??= new(kind, element, id, null, null, sentence);

    internal void ForbidUnknown()
    {
        if (_unknown.Count > 0)
        {
            _obstacle ??= Avoided(_unknown[0]);
        }
    }

    private void Compare(
        LimitKind kind, Fact<double> fact, double limit, double by, string name, string what, string fails, string present, string asked, Figure figure)
    {
        if (!fact.IsKnown)
        {
            _unknown.Add(new(kind, element, id, $"{name}: {what} unknown"));
        }
        else if (by > Tolerance)
        {
            _obstacle ??= new(
                kind, element, id, fact.Value, limit,
                $"{name} is {figure.Difference(by)} {fails} ({figure.Show(fact.Value)} {present}, {figure.Show(limit)} {asked}, {Provenance(fact)})");
        }
    }

    private static string Provenance(Fact<double> fact) =>
        fact.Source.ToString().ToLowerInvariant() + (fact.AsOf is { } day ? day.ToString(" yyyy-MM-dd", CultureInfo.InvariantCulture) : ", no date");
}
