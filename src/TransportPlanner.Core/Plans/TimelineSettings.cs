using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Plans;

/// <summary>How much time is taken before go. Urgent never takes longer than planned.</summary>
public enum Tempo
{
    Planned,
    Urgent,
}

/// <summary>How long a step lasts, in whole seconds, and where that is known from.</summary>
/// <param name="PlannedSeconds">0 to <see cref="MaxSeconds"/>.</param>
/// <param name="UrgentSeconds">0 to <see cref="MaxSeconds"/>.</param>
/// <param name="Source">Of both figures.</param>
/// <param name="IsAssumed">The site said nothing.</param>
public sealed record StepTime(int PlannedSeconds, int UrgentSeconds, string Source, bool IsAssumed = true)
{
    public const int MaxSeconds = 4 * 60 * 60;

    /// <summary>The shorter of the two where the tempo is urgent.</summary>
    public int Seconds(Tempo tempo) => tempo == Tempo.Urgent ? Math.Min(UrgentSeconds, PlannedSeconds) : PlannedSeconds;

    /// <summary>The same at either tempo.</summary>
    public static StepTime Of(int seconds, string source, bool isAssumed = true) => new(seconds, seconds, source, isAssumed);

    /// <summary>Several times, one after the other.</summary>
    internal StepTime In(Turns turns) => this with
    {
        PlannedSeconds = PlannedSeconds * turns.Planned,
        UrgentSeconds = Seconds(Tempo.Urgent) * turns.At(Tempo.Urgent),
        IsAssumed = IsAssumed || turns.IsAssumed,
    };
}

/// <summary>How often one person's time is passed until all are done.</summary>
/// <param name="Planned">1 to <see cref="Max"/>.</param>
/// <param name="Urgent">1 to <see cref="Max"/>.</param>
/// <param name="IsAssumed">The site said nothing.</param>
public sealed record Turns(int Planned, int Urgent, bool IsAssumed = true)
{
    public const int Max = 4;

    /// <summary>The fewer of the two where the tempo is urgent.</summary>
    public int At(Tempo tempo) => tempo == Tempo.Urgent ? Math.Min(Urgent, Planned) : Planned;
}

/// <summary>
/// How long each step before go and after arrival lasts at a site. The defaults are the low ends (urgent) and high ends (planned) of this project's
/// estimates, to be replaced by what drills take; where a published figure was near, it is named.
/// </summary>
public sealed record TimelineSettings
{
    private const string Proposal = "none: project proposal";

    /// <summary>From the first call until everybody who is called stands at the huddle.</summary>
    public StepTime Call { get; init; } = new(600, 180, Proposal);

    public StepTime Huddle { get; init; } = new(180, 120, Proposal);

    /// <summary>Kit, gas and batteries. 4.5 min for each phase of a checklist on adults.</summary>
    public StepTime Kit { get; init; } = StepTime.Of(270, "Brunsveld-Reinders et al., Crit Care 2015;19:214 (abstract): 4.5 min a phase, adults");

    /// <summary>At each hand-hygiene step; the World Health Organization asks 20 to 30 s for a rub, 40 to 60 s for a wash.</summary>
    public StepTime HandHygiene { get; init; } = StepTime.Of(15, "none (fact of the trade): at least 15 s; World Health Organization guidance 20 to 30 s for a rub");

    /// <summary>Of one person who is watched; null: <see cref="DonningFor"/>.</summary>
    public StepTime? Donning { get; init; }

    /// <summary>
    /// Turns in which the care givers dress, and receiver and watcher likewise: who watches does not dress meanwhile, so pairs that watch each other need two.
    /// Urgent: all dress at once and check each other before they enter. No source: project proposal.
    /// </summary>
    public Turns DonningTurns { get; init; } = new(2, 1);

    /// <summary>The infant into the incubator; tube, lines and wires secured.</summary>
    public StepTime Loading { get; init; } = new(900, 300, Proposal);

    /// <summary>On the transport ventilator before leaving; a wish of the field, required without a figure.</summary>
    public StepTime Trial { get; init; } = StepTime.Of(300, "none: project proposal; a trial before leaving is asked for without a figure (American Association for Respiratory Care, position statement)");

    /// <summary>Bands, tag, lines and flow, spoken.</summary>
    public StepTime TimeOut { get; init; } = new(120, 60, Proposal);

    /// <summary>Outside of the incubator wiped, with the product's contact time.</summary>
    public StepTime Wipe { get; init; } = new(240, 120, Proposal);

    /// <summary>Support, flow and gauge read again; two voices say go.</summary>
    public StepTime GoCheck { get; init; } = StepTime.Of(30, Proposal);

    /// <summary>18.8 min were audited after operations (from memory); 5 to 10 are wished.</summary>
    public StepTime HandOver { get; init; } = StepTime.Of(600, Proposal);

    /// <summary>Of one person who is watched; null: <see cref="DoffingFor"/>. Nobody hurries it: the same at either tempo.</summary>
    public StepTime? Doffing { get; init; }

    /// <summary>How many take off at once, each with a watcher of its own: 1 to <see cref="Turns.Max"/>. No source: project proposal.</summary>
    public int DoffingAtOnce { get; init; } = 1;
    public bool DoffingAtOnceIsAssumed { get; init; } = true;

    /// <summary>The incubator cleaned, refilled and charged, from the end of the hand-over: the high end of 30 to 60 min, at either tempo.</summary>
    public StepTime IncubatorCleaning { get; init; } = StepTime.Of(3600, $"{Proposal} of 30 to 60 min, of which the longer is counted");

    /// <summary>
    /// Putting on the set of the strictest precaution in force. Contact, planned: nine in ten of a normal distribution, 59.9 + 1.2816 × 7.15 × √21
    /// = 101.9 s; urgent: the mean. Airborne: the planning range; droplet has no published time and takes the same, for a set with fewer pieces.
    /// </summary>
    public static StepTime DonningFor(PrecautionSet precautions) =>
        precautions.HasFlag(PrecautionSet.Airborne) ? new(360, 180, $"PD-15, {Proposal}; no published mean for this set is known")
        : precautions.HasFlag(PrecautionSet.Droplet) ? new(360, 180, $"PD-15, {Proposal}; no published mean for this set is known: counted as the airborne set")
        : precautions.HasFlag(PrecautionSet.Contact)
            ? new(102, 60, "PD-04, Am J Infect Control 2015;43:241-247, Table 1: mean 59.9 s, SEM 7.15, n 21; planned: mean + 1.28 standard deviations")
            : StepTime.Of(0, "no precautions: nothing to put on");

    /// <summary>
    /// Taking it off, watched. Contact: 15.2 + 1.2816 × 6.33 × √21 = 52.4 s, and the site's hand hygiene, of which that mean has no room.
    /// </summary>
    public StepTime DoffingFor(PrecautionSet precautions) => Doffing
        ?? ((precautions & (PrecautionSet.Airborne | PrecautionSet.Droplet)) != PrecautionSet.None ? StepTime.Of(360, $"PD-16, {Proposal}")
        : precautions.HasFlag(PrecautionSet.Contact)
            ? StepTime.Of(
                53 + HandHygiene.PlannedSeconds,
                "PD-06, Am J Infect Control 2015;43:241-247, Table 1: mean 15.2 s, SEM 6.33, n 21 taken; mean + 1.28 standard deviations, and hand hygiene")
            : HandHygiene);

    /// <summary>The support is given by a ventilator, so the infant is tried on the one that travels.</summary>
    public static bool NeedsTrial(RespiratorySupport support) => support is RespiratorySupport.InvasiveVentilation or RespiratorySupport.NonInvasiveVentilation;
}
