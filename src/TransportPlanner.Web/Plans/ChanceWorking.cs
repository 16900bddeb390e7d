using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>
/// What a reader needs to check the percentiles of a way and the chance that it outlasts its gas. Both are read off a convolution, which no sheet can show
/// step by step: the inputs stand here, and a figure by hand that comes near.
/// </summary>
internal static class ChanceWorking
{
    /// <summary>Nine in ten of a normal distribution lie below the mean and so many standard deviations. Source: any table of it, 1.2816.</summary>
    private const double NineInTen = 1.28;

    /// <summary>Stalls, each with its chance and length; then the spread, and the percentiles near to which it leads.</summary>
    public static IEnumerable<string> Time(RouteResponse way)
    {
        var stalls = StallsOf(way);
        foreach (var ride in stalls)
        {
            var (p, stall) = (ride.StallProbability, ride.Stall!);
            yield return WayWorking.Text($"Stall of {ride.Place}: 1 ride × chance {p:0.######} = {p * 1000:0.###} in 1,000. A stall lasts {Text(stall)} s, mean {Mean(stall):0.0} s; {p:0.######} × {Mean(stall):0.0} s = {p * Mean(stall):0.0} s.");
        }

        if (stalls.Count > 1)
        {
            yield return WayWorking.Text($"A stall in any of {stalls.Count} rides: 1 − {string.Join(" × ", stalls.Select(ride => WayWorking.Text($"(1 − {ride.StallProbability:0.######})")))} = {way.StallProbability:0.######}.");
        }

        var walks = way.Crossings.Select(crossing => crossing.Walking).OfType<TriangleResponse>().ToList();
        var walk = Variance(new(walks.Sum(part => part.LeastSeconds), walks.Sum(part => part.LikelySeconds), walks.Sum(part => part.MostSeconds)));
        double Sum(Func<CrossingResponse, TriangleResponse?> part) => way.Crossings.Select(part).OfType<TriangleResponse>().Sum(Variance);
        var (doors, waits, rides) = (Sum(crossing => crossing.Door), Sum(crossing => crossing.Wait), Sum(crossing => crossing.Ride));
        var spread = Math.Sqrt(walk + doors + waits + rides);
        yield return WayWorking.Text($"Spread: the variance of a part is (a² + b² + c² − ab − ac − bc) ÷ 18 of its least, likely and most. All walking as one {walk:0.0}, doors {doors:0.0}, waits {waits:0.0}, rides {rides:0.0} s²; √({walk:0.0} + {doors:0.0} + {waits:0.0} + {rides:0.0}) = {spread:0.0} s without a stall.");
        var mean = way.Crossings.Sum(crossing => crossing.DwellSeconds);
        yield return WayWorking.Text($"Usually and nearly always are read off the convolution of these parts and the stalls, second by second, which this sheet cannot show step by step. By hand a normal curve comes near: {mean:0.0} s = {PlanWords.Clock(mean)}, and {mean:0.0} + {NineInTen} × {spread:0.0} = {mean + NineInTen * spread:0.0} s = {PlanWords.Clock(mean + NineInTen * spread)}.");
    }

    /// <summary>How the chance comes about that the journey outlasts a supply, and the share of stalls by hand where nothing but a stall can do it.</summary>
    public static string Of(ShortfallResponse shortfall, RouteResponse way)
    {
        var how = WayWorking.Text($"The journey outlasts {shortfall.Supply} in {shortfall.Frequency}: for each second that it may take, the chance of that second × the share of the supply's triangle ({shortfall.LeastMinutes:0.###}, {shortfall.LikelyMinutes:0.###}, {shortfall.MostMinutes:0.###} min) up to it, added up. The sheet cannot show that step by step.");
        var longest = way.Crossings.Sum(crossing => new[] { crossing.Walking, crossing.Door, crossing.Wait, crossing.Ride }.Sum(part => part?.MostSeconds ?? 0)) / 60;
        if (longest >= (double)shortfall.LeastMinutes)
        {
            return how;
        }

        var stalls = StallsOf(way);
        if (stalls.Count == 0)
        {
            return how + WayWorking.Text($" Without an elevator that may stall no journey takes more than {longest:0.0} min.");
        }

        var mean = way.Crossings.Sum(crossing => crossing.DwellSeconds) / 60;
        var needed = (double)shortfall.LikelyMinutes - mean;
        var shares = stalls.Select(ride => (ride.StallProbability, Share: Longer(ride.Stall!, needed * 60))).ToList();
        return how + WayWorking.Text($" By hand, near: no journey without a stall takes more than {longest:0.0} min, so a stall must last longer than {shortfall.LikelyMinutes:0.0} − {mean:0.0} = {needed:0.0} min; by its triangle {(shares.Count == 1 ? "a share" : "shares")} of {string.Join(" and ", shares.Select(share => WayWorking.Text($"{share.Share:0.000}")))} {(shares.Count == 1 ? "does" : "do")}: {string.Join(" + ", shares.Select(share => WayWorking.Text($"{share.StallProbability:0.######} × {share.Share:0.000}")))} = {shares.Sum(share => share.StallProbability * share.Share) * 1000:0.000} in 1,000. Above it is rounded up to a whole number.");
    }

    /// <summary>Share of a triangle above so many seconds: (c − x)² ÷ ((c − a)(c − b)) beyond the likely value, 1 − (x − a)² ÷ ((c − a)(b − a)) before it.</summary>
    private static double Longer(TriangleResponse part, double seconds)
    {
        var (a, b, c) = (part.LeastSeconds, part.LikelySeconds, part.MostSeconds);
        return seconds <= a ? 1
            : seconds >= c ? 0
            : seconds >= b ? (c - seconds) * (c - seconds) / ((c - a) * (c - b))
            : 1 - (seconds - a) * (seconds - a) / ((c - a) * (b - a));
    }

    private static List<CrossingResponse> StallsOf(RouteResponse way) => [.. way.Crossings.Where(crossing => crossing is { StallProbability: > 0, Stall: not null })];

    private static double Mean(TriangleResponse part) => (part.LeastSeconds + part.LikelySeconds + part.MostSeconds) / 3;

    private static double Variance(TriangleResponse part)
    {
        var (a, b, c) = (part.LeastSeconds, part.LikelySeconds, part.MostSeconds);
        return (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
    }

    private static string Text(TriangleResponse part) => WayWorking.Text($"{part.LeastSeconds:0}, {part.LikelySeconds:0}, {part.MostSeconds:0}");
}
