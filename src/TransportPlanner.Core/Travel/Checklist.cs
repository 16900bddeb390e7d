using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>How a figure of a limit is written.</summary>
/// <param name="Unit">Of the figure, with the space before it.</param>
/// <param name="Format">Of the figure.</param>
/// <param name="DifferenceUnit">Of a difference; null for percentage points, which are words.</param>
/// <param name="DifferenceFormat">Of a difference.</param>
/// <param name="DifferenceScale">Units of a difference in one of the figure.</param>
internal sealed record Figure(string Unit, string Format, string? DifferenceUnit, string DifferenceFormat, double DifferenceScale = 1)
{
    internal static Figure Length { get; } = new(" m", "0.00#", " cm", "0.#", 100);
    internal static Figure Area { get; } = new(" m²", "0.00#", " m²", "0.00#");
    internal static Figure Mass { get; } = new(" kg", "0.#", " kg", "0.#");
    internal static Figure Percent { get; } = new(" %", "0.##", null, "0.##");

    internal string Show(double value) => value.ToString(Format, CultureInfo.InvariantCulture) + Unit;

    internal object Difference(double value) => (value * DifferenceScale).ToString(DifferenceFormat, CultureInfo.InvariantCulture) is var number && DifferenceUnit is null
        ? Statement.Of(StatementText.PercentagePoints, number)
        : number + DifferenceUnit;
}

/// <summary>Collects the findings on one element: the first obstacle stays, every unknown is kept.</summary>
internal sealed class Checklist(ClosureTarget element, string id, PassageKind? passage = null)
{
    /// <summary>Facts are kept to the millimetre; a figure that equals the need in decimals must not fail in binary.</summary>
    private const double Tolerance = 1e-9;

    private readonly List<UnknownLimit> _unknown = [];
    private Obstacle? _obstacle;

    private readonly Statement _name = Statement.NameOf(element, id, passage);

    internal LimitFindings Findings => new(_obstacle, [.. _unknown]);

    internal static Obstacle Avoided(UnknownLimit limit) =>
        new(limit.Kind, limit.Element, limit.Id, null, null, Statement.Of(StatementText.UnknownAvoided, limit.Statement));

    /// <param name="kind">The limit.</param>
    /// <param name="fact">What is there.</param>
    /// <param name="needed">What is needed.</param>
    /// <param name="figure">How it is written.</param>
    /// <param name="fails">Said where it fails, with the element, the difference, both figures, whence they are known, and <paramref name="more"/>.</param>
    /// <param name="more">Further values of that text.</param>
    internal void AtLeast(LimitKind kind, Fact<double> fact, double needed, Figure figure, StatementText fails, params object[] more) =>
        Compare(kind, fact, needed, fact.IsKnown ? needed - fact.Value : 0, figure, fails, more);

    /// <inheritdoc cref="AtLeast"/>
    internal void AtMost(LimitKind kind, Fact<double> fact, double allowed, Figure figure, StatementText fails) =>
        Compare(kind, fact, allowed, fact.IsKnown ? fact.Value - allowed : 0, figure, fails, []);

    internal void Forbid(LimitKind kind, StatementText text) => _obstacle ??= new(kind, element, id, null, null, Statement.Of(text, _name));

    internal void ForbidUnknown()
    {
        if (_unknown.Count > 0)
        {
            _obstacle ??= Avoided(_unknown[0]);
        }
    }

    private void Compare(
        LimitKind kind, Fact<double> fact, double limit, double by, Figure figure, StatementText fails, object[] more)
    {
        if (!fact.IsKnown)
        {
            _unknown.Add(new(kind, element, id, passage));
        }
        else if (by > Tolerance)
        {
            _obstacle ??= new(
                kind, element, id, fact.Value, limit,
                Statement.Of(fails, [_name, figure.Difference(by), figure.Show(fact.Value), figure.Show(limit), Provenance(fact), .. more]));
        }
    }

    private static Statement Provenance(Fact<double> fact)
    {
        var (dated, undated) = fact.Source switch
        {
            FactSource.Measured => (StatementText.MeasuredOn, StatementText.Measured),
            FactSource.Drawing => (StatementText.DrawingOn, StatementText.Drawing),
            _ => (StatementText.AssumedOn, StatementText.Assumed),
        };
        return fact.AsOf is { } day ? Statement.Of(dated, day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)) : Statement.Of(undated);
    }
}
