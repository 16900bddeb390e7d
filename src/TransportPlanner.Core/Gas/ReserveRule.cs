namespace TransportPlanner.Core.Gas;

/// <summary>How much more gas than the journey takes: the largest of its terms, each <c>times × journey + minutes</c>.</summary>
/// <param name="Id">Stable name: <c>twice-the-journey</c>.</param>
/// <param name="Source">Where the rule comes from.</param>
/// <param name="Terms">At least one.</param>
public sealed record ReserveRule(string Id, string Source, IReadOnlyList<ReserveTerm> Terms)
{
    /// <summary>Source: in-hospital transfer teaching, UK (RR-02).</summary>
    public static ReserveRule TwiceTheJourney { get; } = new("twice-the-journey", "in-hospital transfer teaching, UK", [new(2, 0)]);

    /// <summary>Source: Warren et al., Crit Care Med 2004;32:256-262, intrahospital section (RR-03; from memory, for adults).</summary>
    public static ReserveRule JourneyPlus30Minutes { get; } =
        new("journey-plus-30-minutes", "Warren et al., Crit Care Med 2004;32:256-262 (from memory; adults)", [new(1, 30)]);

    /// <summary>The two that always stand side by side: on one journey they may disagree.</summary>
    public static IReadOnlyList<ReserveRule> SideBySide { get; } = [TwiceTheJourney, JourneyPlus30Minutes];

    /// <summary>Minutes that the supply must last.</summary>
    public decimal RequiredMinutes(decimal journeyMinutes) => Terms.Max(term => term.Of(journeyMinutes));

    internal string WorkingOf(decimal journeyMinutes)
    {
        var term = Terms.MaxBy(term => term.Of(journeyMinutes))!;
        var journey = $"{GasText.Number(journeyMinutes)} min";
        var left = (term.Times, term.PlusMinutes) switch
        {
            (1, var plus) => $"{journey} + {GasText.Number(plus)} min",
            (0, var plus) => $"{GasText.Number(plus)} min",
            (var times, 0) => $"{GasText.Number(times)} × {journey}",
            (var times, var plus) => $"{GasText.Number(times)} × {journey} + {GasText.Number(plus)} min",
        };
        return $"{left} = {GasText.Number(term.Of(journeyMinutes))} min";
    }
}

/// <summary><c>Times</c> × journey + <c>PlusMinutes</c>; times 0 is a fixed least time.</summary>
public sealed record ReserveTerm(decimal Times, decimal PlusMinutes)
{
    internal decimal Of(decimal journeyMinutes) => Times * journeyMinutes + PlusMinutes;
}
