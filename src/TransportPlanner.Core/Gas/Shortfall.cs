using System.Globalization;

namespace TransportPlanner.Core.Gas;

/// <summary>
/// The chance that a journey outlasts a supply. The supply's minutes are taken as a symmetrical triangle: the figure as typed is the likeliest, the low
/// end of the band the least, and as far above the most. The shape is an assumption; the journey's distribution comes from outside. Summed over the
/// journey's whole seconds, so it is deterministic.
/// </summary>
/// <param name="Supply">What is meant: the supply as set, or oxygen alone.</param>
/// <param name="Chance">0 to 1.</param>
/// <param name="LeastMinutes">Low end of the band, rounded down to a thousandth.</param>
/// <param name="LikelyMinutes">The figure as typed.</param>
/// <param name="MostMinutes">As far above it as the low end lies below.</param>
public sealed record Shortfall(string Supply, double Chance, decimal LeastMinutes, decimal LikelyMinutes, decimal MostMinutes)
{
    private const double Rounding = 1e-9;

    /// <summary>The chance in words of counted journeys, rounded up: <c>about 3 in 1,000 journeys like this</c>.</summary>
    public string Frequency
    {
        get
        {
            foreach (var journeys in new[] { 100, 1_000, 10_000 })
            {
                if (Chance * journeys >= 1 - Rounding)
                    return string.Create(CultureInfo.InvariantCulture, $"about {Math.Ceiling(Chance * journeys - Rounding):0} in {journeys:#,0} journeys like this");
            }

            return "fewer than 1 in 10,000 journeys like this";
        }
    }

    /// <summary>The supply as set, where a cylinder is drawn, and oxygen alone.</summary>
    /// <param name="supply">What is carried.</param>
    /// <param name="chanceBySecond">Chance that the journey takes so many whole seconds, from 0; they add up to 1.</param>
    /// <exception cref="ArgumentException">A chance is negative, or they do not add up to 1 (within 0.000001).</exception>
    public static IReadOnlyList<Shortfall> Of(GasSupply supply, IReadOnlyList<double> chanceBySecond)
    {
        if (chanceBySecond.Any(chance => !(chance >= 0)) || Math.Abs(chanceBySecond.Sum() - 1) > 1e-6)
            throw new ArgumentException("Give chances that are not negative and add up to 1.", nameof(chanceBySecond));
        List<Shortfall> shortfalls = [];
        var first = supply.Gases.Where(gas => gas.Exact is not null).OrderBy(gas => gas.Exact!.Value).FirstOrDefault();
        if (first is { Exact: { } exact, ExactLow: { } low })
            shortfalls.Add(Of("the supply as set", low, exact, chanceBySecond));
        shortfalls.Add(Of("oxygen alone at fraction 1.0", supply.OxygenAlone.ExactLow, supply.OxygenAlone.Exact, chanceBySecond));
        return shortfalls;
    }

    /// <summary>Share of the triangle at or below so many minutes.</summary>
    internal static double ShareBelow(double minutes, double least, double likely)
    {
        var half = likely - least;
        if (half < Rounding)
            return minutes > likely ? 1 : 0;
        var from = Math.Clamp((minutes - least) / half, 0, 2);
        return from <= 1 ? from * from / 2 : 1 - (2 - from) * (2 - from) / 2;
    }

    private static Shortfall Of(string name, Rational low, Rational likely, IReadOnlyList<double> chanceBySecond)
    {
        var (least, middle) = (low.ToDouble(), likely.ToDouble());
        var chance = chanceBySecond.Select((p, second) => p == 0 ? 0 : p * ShareBelow(second / 60.0, least, middle)).Sum();
        return new(name, Math.Clamp(chance, 0, 1), low.Down(3), likely.Down(3), (likely + likely - low).Down(3));
    }
}
