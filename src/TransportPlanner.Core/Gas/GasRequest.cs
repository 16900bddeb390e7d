namespace TransportPlanner.Core.Gas;

/// <summary>What decides how long the gas lasts.</summary>
public sealed record GasRequest
{
    public const decimal MinCelsius = -20;
    public const decimal MaxCelsius = 50;
    public const decimal MaxJourneyMinutes = 1_440;
    public const decimal AssumedCelsius = 20;

    public required GasDemand Demand { get; init; }
    public required IReadOnlyList<Cylinder> Cylinders { get; init; }

    /// <summary>−20 to 50 °C (source: input limit IL-10, common practice); null: 20 °C, marked assumed.</summary>
    public decimal? CylinderCelsius { get; init; }

    /// <summary>Above 0 to 1,440; null: no rule is judged. Plans give the nearly-always time.</summary>
    public decimal? JourneyMinutes { get; init; }

    /// <summary>The journey's stretches in order; empty: nothing is known about stops. Their sum is the journey where <see cref="JourneyMinutes"/> is null.</summary>
    public IReadOnlyList<JourneyStretch> Timeline { get; init; } = [];

    /// <summary>Rules that stand side by side; a site adds its own.</summary>
    public IReadOnlyList<ReserveRule> Rules { get; init; } = ReserveRule.SideBySide;

    /// <summary>The journey as given, else the sum of its stretches.</summary>
    internal decimal? Journey => JourneyMinutes ?? (Timeline.Count > 0 ? Timeline.Sum(stretch => stretch.Minutes) : null);

    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    internal void Validate()
    {
        Demand.Validate();
        if (CylinderCelsius is < MinCelsius or > MaxCelsius)
            throw new ArgumentOutOfRangeException(nameof(CylinderCelsius), CylinderCelsius, $"Give a number from {MinCelsius} to {MaxCelsius} °C.");
        foreach (var stretch in Timeline)
            stretch.Validate();
        if (Journey is <= 0 or > MaxJourneyMinutes)
            throw new ArgumentOutOfRangeException(nameof(JourneyMinutes), Journey, $"Give a number above 0 and up to {MaxJourneyMinutes} min.");
        if (Timeline.Count > 0 && Journey != Timeline.Sum(stretch => stretch.Minutes))
            throw new ArgumentOutOfRangeException(nameof(Timeline), JourneyMinutes, "The stretches add up to another time than the journey: give one of the two.");
    }
}
