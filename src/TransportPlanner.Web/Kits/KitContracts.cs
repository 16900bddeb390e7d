using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Kits;

/// <summary>What decides the kit of one transport.</summary>
public sealed record KitRequest
{
    /// <summary>Weight in grams. May be left out: sizes that go by weight then span every band.</summary>
    [Range(KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams, ErrorMessage = "Is this in grams? Give 300 to 6000 g: an infant of 1.85 kg is 1850. Or leave it out.")]
    public int? WeightGrams { get; init; }

    /// <summary>Gestation in completed weeks. May be left out: sizes that go by gestation then span every band.</summary>
    [Range(KitQuery.MinGestationWeeks, KitQuery.MaxGestationWeeks, ErrorMessage = "Give completed weeks, 22 to 44, or leave it out.")]
    public int? GestationWeeks { get; init; }

    /// <summary>How the infant's breathing is supported.</summary>
    public required RespiratorySupport Support { get; init; }

    /// <summary>Precautions in force, as infection prevention entered them: at least one.</summary>
    [MinLength(1, ErrorMessage = "Give at least one of contact, droplet, airborne.")]
    public required IReadOnlyList<Precaution> Precautions { get; init; }

    /// <summary>Planned minutes from door to door, rounded up.</summary>
    [Range(KitQuery.MinJourneyMinutes, KitQuery.MaxJourneyMinutes, ErrorMessage = "Give whole minutes, 1 to 1440.")]
    public required int JourneyMinutes { get; init; }

    /// <summary>Devices with rules of their own, named only where the team means to use them. Combinations that the rules refuse come back in refused.</summary>
    public IReadOnlyList<KitDevice> Devices { get; init; } = [];
}

/// <summary>What must travel, with the order of protective wear. Nothing here names a drug or a dose.</summary>
public sealed record KitResponse
{
    /// <summary>Version of the rule file that was read.</summary>
    public required string RulesVersion { get; init; }

    /// <summary>Day on which the rule file was last changed.</summary>
    public required DateOnly RulesDate { get; init; }

    /// <summary>Who answers for the rules.</summary>
    public required string RulesOwner { get; init; }

    /// <summary>One sentence for each input that was missing, so that sizes span its bands.</summary>
    public required IReadOnlyList<string> Spans { get; init; }

    /// <summary>In the order of the journey: before departure, under way, handoff.</summary>
    public required IReadOnlyList<KitItemResponse> Items { get; init; }

    /// <summary>Devices that were asked for and are not listed.</summary>
    public required IReadOnlyList<KitRefusalResponse> Refused { get; init; }

    /// <summary>Putting protective wear on, step by step.</summary>
    public required IReadOnlyList<WearStepResponse> WearOn { get; init; }

    /// <summary>Taking protective wear off, step by step.</summary>
    public required IReadOnlyList<WearStepResponse> WearOff { get; init; }

    /// <summary>What stands around the steps of protective wear.</summary>
    public required WearResponse Wear { get; init; }

    /// <summary>To be shown with the list, each with its source.</summary>
    public required IReadOnlyList<KitNoteResponse> Cautions { get; init; }

    internal static KitResponse From(KitList list, ProtectiveWear wear) => new()
    {
        RulesVersion = list.RulesVersion,
        RulesDate = list.RulesDate,
        RulesOwner = list.RulesOwner,
        Spans = list.Spans,
        Items = [.. list.Items.Select(KitItemResponse.From)],
        Refused = [.. list.Refused.Select(refusal => new KitRefusalResponse(refusal.RuleId, refusal.Devices, refusal.Reason, $"{refusal.Source}"))],
        WearOn = [.. wear.On.Select(WearStepResponse.From)],
        WearOff = [.. wear.Off.Select(WearStepResponse.From)],
        Wear = WearResponse.From(wear),
        Cautions = [.. list.Cautions.Concat(wear.Cautions).Select(KitNoteResponse.From)],
    };
}

/// <summary>A sentence of the rules with its source.</summary>
/// <param name="Rule">Row of the rule file.</param>
/// <param name="Text">The sentence.</param>
/// <param name="Source">Where it comes from and how it is known.</param>
public sealed record KitNoteResponse(string Rule, string Text, string Source)
{
    internal static KitNoteResponse From(KitNote note) => new(note.RuleId, note.Text, $"{note.Source}");
}

/// <summary>Devices that do not go together, or not with this infant.</summary>
/// <param name="Rule">Row of the rule file.</param>
/// <param name="Devices">All of these together are refused; none of them is listed.</param>
/// <param name="Reason">Why, with the figure.</param>
/// <param name="Source">Where the rule comes from and how it is known.</param>
public sealed record KitRefusalResponse(string Rule, IReadOnlyList<KitDevice> Devices, string Reason, string Source);

/// <summary>One thing that travels or one check of the kit.</summary>
public sealed record KitItemResponse
{
    /// <summary>Stable name of the rule, such as tracheal-tube.</summary>
    public required string Id { get; init; }

    /// <summary>Row of the reference data that the rule follows, such as PR-016.</summary>
    public required string Rule { get; init; }

    /// <summary>What it is, or what is checked.</summary>
    public required string Name { get; init; }

    /// <summary>All values to carry in one line, with the unit; null for an item without sizes.</summary>
    public string? Size { get; init; }

    /// <summary>Sizes that travel as spares; null where there are none.</summary>
    public string? SpareSize { get; init; }

    /// <summary>Each value with its own source: several where a figure lies on a band's edge, where sources differ, or where an input is missing.</summary>
    public required IReadOnlyList<KitSizeResponse> Sizes { get; init; }

    /// <summary>How many, 1 or more.</summary>
    public required int Quantity { get; init; }

    /// <summary>Whether the quantity is for the transport or for each person.</summary>
    public required QuantityBasis QuantityPer { get; init; }

    /// <summary>Ready before departure, within reach under way, or due at handoff.</summary>
    public required KitPhase Phase { get; init; }

    /// <summary>Role that brings it or answers for it.</summary>
    public required TransportRole CarriedBy { get; init; }

    /// <summary>The reason, in one or two sentences.</summary>
    public required string Why { get; init; }

    /// <summary>Where the rule comes from and how it is known: published, quoted, from memory, derived or common practice.</summary>
    public required string Source { get; init; }

    /// <summary>True where the rule needs a named clinical owner.</summary>
    public required bool SafetyCritical { get; init; }

    /// <summary>True where two people check it, each in an entry of their own.</summary>
    public required bool TwoPeople { get; init; }

    /// <summary>True where a person must decide.</summary>
    public required bool NeedsConfirmation { get; init; }

    /// <summary>What has to be decided, where the rules say it.</summary>
    public required IReadOnlyList<KitNoteResponse> Asks { get; init; }

    internal static KitItemResponse From(KitItem item) => new()
    {
        Id = item.Id,
        Rule = item.Reference,
        Name = item.Name,
        Size = item.Size,
        SpareSize = item.SpareSize,
        Sizes = [.. item.Sizes.Select(KitSizeResponse.From)],
        Quantity = item.Quantity,
        QuantityPer = item.QuantityPer,
        Phase = item.Phase,
        CarriedBy = item.CarriedBy,
        Why = item.Why,
        Source = $"{item.Source}",
        SafetyCritical = item.SafetyCritical,
        TwoPeople = item.TwoPeople,
        NeedsConfirmation = item.NeedsConfirmation,
        Asks = [.. item.Asks.Select(KitNoteResponse.From)],
    };
}

/// <summary>One value from one source.</summary>
public sealed record KitSizeResponse
{
    /// <summary>Row of the rule file.</summary>
    public required string Rule { get; init; }

    /// <summary>The value with its unit, or the rule in words where something must be measured first.</summary>
    public required string Text { get; init; }

    /// <summary>Weight, gestation or tube by which the value was read, or the whole band where these are unknown.</summary>
    public required string Basis { get; init; }

    /// <summary>False for a value that is kept in sight and is not part of the size to carry, such as an older edition's.</summary>
    public required bool Offered { get; init; }

    /// <summary>The source's own limits, in words.</summary>
    public string? Note { get; init; }

    /// <summary>The day on which the row was written down from memory or beside a revised edition; null for one that was read. Confirm such a row with the unit.</summary>
    public DateOnly? Recalled { get; init; }

    /// <summary>Where the value comes from and how it is known.</summary>
    public required string Source { get; init; }

    internal static KitSizeResponse From(KitSize size) => new()
    {
        Rule = size.RuleId,
        Text = size.Text,
        Basis = size.Basis,
        Offered = size.Offered,
        Note = size.Note,
        Recalled = size.Recalled,
        Source = $"{size.Source}",
    };
}
