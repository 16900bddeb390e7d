namespace TransportPlanner.Core.Kits;

/// <summary>When an item is due. In the order of the journey.</summary>
public enum KitPhase
{
    /// <summary>Ready and checked before the wheels roll.</summary>
    BeforeDeparture,
    /// <summary>Within reach from door to door.</summary>
    UnderWay,
    /// <summary>At the destination, until care is handed over and the equipment is clean.</summary>
    Handoff,
}

/// <summary>Who brings the item or answers for it: a role, never a name.</summary>
public enum TransportRole
{
    TeamLead,
    RespiratoryTherapist,
    TransportNurse,
    CleanHelper,
    ReceivingNurse,
    EnvironmentalServices,
    DoffingWatcher,
    /// <summary>Each person who gives care on the way: lead, therapist and nurse.</summary>
    EveryCareGiver,
    /// <summary>Each person who goes along, the clean helper included.</summary>
    EveryTeamMember,
}

public enum QuantityBasis { Transport, Person }

/// <summary>How a figure is known. <see cref="Memory"/> means recalled and not read: check it before relying on it.</summary>
public enum Provenance { Published, Quoted, Memory, Derived, CommonPractice }

/// <summary>Where a rule comes from and how it is known.</summary>
public sealed record RuleSource(string Title, Provenance Provenance)
{
    internal static RuleSource Project { get; } = new("none: project proposal", Provenance.CommonPractice);

    /// <summary>Title and provenance in one line, as lists and prints show them.</summary>
    public override string ToString() => Provenance switch
    {
        Provenance.Published => $"{Title} (published)",
        Provenance.Quoted => $"{Title} (quoted)",
        Provenance.Memory => $"{Title} (from memory: verify)",
        Provenance.Derived => $"{Title} (derived)",
        Provenance.CommonPractice => $"{Title} (common practice)",
        _ => throw new InvalidOperationException($"No words for {Provenance}."),
    };
}

/// <summary>A sentence of the rule file with its source.</summary>
public sealed record KitNote(string RuleId, string Text, RuleSource Source);

/// <summary>Devices that were asked for and that the rules refuse, with the reason. A local override is a person's decision.</summary>
public sealed record KitRefusal(string RuleId, IReadOnlyList<KitDevice> Devices, string Reason, RuleSource Source);

/// <summary>One value for one size, from one row of the rule file.</summary>
/// <param name="RuleId">Row of the reference data, such as <c>KS-02</c>.</param>
/// <param name="Text">The value with its unit, or the rule in words where it must be measured first.</param>
/// <param name="Low">The value, or the lower end of a range, in the table's unit; null where there is only a rule in words.</param>
/// <param name="High">Upper end; equal to <paramref name="Low"/> for a single value.</param>
/// <param name="Basis">What the value was read by: weight, gestation, tube, or the whole band where these are unknown.</param>
/// <param name="Offered">False: kept in sight, such as an older edition's value, and not part of the size to carry.</param>
/// <param name="Note">The source's own limits, in words; null where there are none.</param>
/// <param name="Recalled">The day on which the row was written down from memory or beside a revised edition; null for one that was read.</param>
/// <param name="Source">Where the row comes from.</param>
public sealed record KitSize(
    string RuleId, string Text, double? Low, double? High, string Basis, bool Offered, string? Note, DateOnly? Recalled, RuleSource Source);

/// <summary>One thing that travels or one check of the kit.</summary>
public sealed record KitItem
{
    /// <summary>Stable name of the rule, such as <c>tracheal-tube</c>.</summary>
    public required string Id { get; init; }

    /// <summary>Row of the reference data that the rule follows, such as <c>PR-016</c>.</summary>
    public required string Reference { get; init; }
    public required string Name { get; init; }

    /// <summary>All values to carry in one line, joined by <i>or</i>; null for an item without sizes.</summary>
    public string? Size { get; init; }
    public string? SpareSize { get; init; }

    /// <summary>Each value with its source; empty for an item without sizes.</summary>
    public required IReadOnlyList<KitSize> Sizes { get; init; }
    public required int Quantity { get; init; }
    public required QuantityBasis QuantityPer { get; init; }
    public required KitPhase Phase { get; init; }
    public required TransportRole CarriedBy { get; init; }
    public required string Why { get; init; }
    public required RuleSource Source { get; init; }
    public required bool SafetyCritical { get; init; }

    /// <summary>Two people check it, each in an entry of their own. Always safety-critical too; most safety-critical items need one person.</summary>
    public required bool TwoPeople { get; init; }

    /// <summary>A person must decide: several values, a source from memory, a conflict of rules, or a missing input.</summary>
    public required bool NeedsConfirmation { get; init; }

    /// <summary>What exactly has to be decided, where the rules say it.</summary>
    public required IReadOnlyList<KitNote> Asks { get; init; }
}
