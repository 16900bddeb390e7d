using System.Globalization;

namespace TransportPlanner.Core.Gas;

/// <summary>Numbers and names as the workings print them.</summary>
internal static class GasText
{
    /// <summary>Enough for the least flow that a blend can have, near 1e-6 L/min, against the largest amount.</summary>
    private const int MostDecimals = 20;

    internal static string Name(GasKind gas) => gas == GasKind.Oxygen ? "oxygen" : "air";

    internal static string Number(decimal value) => value.ToString("0.####################", CultureInfo.InvariantCulture);

    /// <summary>To the nearest of so many decimals.</summary>
    internal static string Number(Rational value, int decimals = 3) => Number(value.Nearest(decimals));

    /// <summary>Equals only where the printed number is the exact one, else about.</summary>
    internal static string Is(Rational exact, decimal printed) => exact == printed ? "=" : "≈";

    /// <summary>
    /// <c>30 min + (252 L − 30 min × 2.4 L/min) ÷ 10 L/min = 48 min</c>: one flow until a minute, another from there; decimals as for
    /// <see cref="Division"/>.
    /// </summary>
    internal static string Twice(Rational litres, Rational until, Rational before, Rational after)
    {
        var minutes = (until + (litres - until * before) / after).Floor();
        for (var decimals = 3; ; decimals++)
        {
            var (l, u, b, a) = (litres.Nearest(decimals), until.Nearest(decimals), before.Nearest(decimals), after.Nearest(decimals));
            if (decimals == MostDecimals || a > 0 && (u + (l - (Rational)u * b) / a).Floor() == minutes)
                return $"{Number(u)} min + ({Number(l)} L − {Number(u)} min × {Number(b)} L/min) ÷ {Number(a)} L/min = {Number(minutes)} min";
        }
    }

    /// <summary>
    /// <c>252 L ÷ 1.139 L/min = 221 min</c> with as few decimals as recompute to the same whole minutes: a printed division must not give
    /// another minute than the exact one. A <paramref name="flowFactor"/> other than 1 multiplies the flow.
    /// </summary>
    internal static string Division(Rational litres, Rational flow, Rational flowFactor)
    {
        var minutes = (litres / (flow * flowFactor)).Floor();
        for (var decimals = 3; decimals < MostDecimals; decimals++)
        {
            // Nearest reads best; more litres over less flow never falls below the exact minutes, so with enough decimals it fits.
            foreach (var (l, f, k) in new[]
            {
                (litres.Nearest(decimals), flow.Nearest(decimals), flowFactor.Nearest(decimals)),
                (litres.Up(decimals), flow.Down(decimals), flowFactor.Down(decimals)),
            })
            {
                if (f > 0 && (l / ((Rational)f * k)).Floor() == minutes)
                    return Print(l, f, k);
            }
        }

        return Print(litres.Up(MostDecimals), flow.Down(MostDecimals), flowFactor.Down(MostDecimals));

        string Print(decimal l, decimal f, decimal k) =>
            $"{Number(l)} L ÷ {(flowFactor == 1m ? $"{Number(f)} L/min" : $"({Number(f)} L/min × {Number(k)})")} = {Number(minutes)} min";
    }
}
