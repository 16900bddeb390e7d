using System.Globalization;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Kits;

/// <summary>What must travel, in three phases, each item with its reason and source.</summary>
/// <remarks>
/// A reading of the rule file <c>kit-rules.json</c>: no figure is made up here. Where weight or gestation is missing, or where sources
/// differ, an item keeps every value with its source and asks for confirmation. Nothing here names a drug, a dose, an oxygen fraction
/// or a pressure to set.
/// </remarks>
public sealed record KitList
{
    /// <summary>Below this weight a figure is more often a slip than an infant (project input limit IL-08, a proposal).</summary>
    private const int UnusuallyLightGrams = 500;

    public required IReadOnlyList<KitItem> Items { get; init; }

    /// <summary>Devices that were asked for and are not listed, with the reason.</summary>
    public required IReadOnlyList<KitRefusal> Refused { get; init; }

    /// <summary>One sentence for each input that was missing; empty where none was.</summary>
    public required IReadOnlyList<string> Spans { get; init; }
    public required IReadOnlyList<KitNote> Cautions { get; init; }
    public required string RulesVersion { get; init; }
    public required DateOnly RulesDate { get; init; }
    public required string RulesOwner { get; init; }

    /// <summary>Reads the rules for one transport. Items come by phase, and in the order of the rule file within a phase.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure of the query is outside its limits.</exception>
    public static KitList For(KitQuery query) => For(query, KitRules.BuiltIn);

    internal static KitList For(KitQuery query, KitRules rules)
    {
        ArgumentNullException.ThrowIfNull(query);
        query.Validate();
        var tube = rules.Read("trachealTube", query, []);
        var tubeSizes = tube.Offered.Where(size => size.Low is not null).Select(size => size.Low!.Value).Distinct().ToList();
        var refused = rules.Refusals.Where(rule => rule.Applies(query)).ToList();
        var refusedDevices = refused.SelectMany(rule => rule.Devices).ToHashSet();
        var items = rules.Items
            .Where(rule => rule.When.Holds(query) && !(rule.When.Device is { } device && refusedDevices.Contains(device)))
            .Select(rule => Item(rule, query, rules, tubeSizes))
            .OrderBy(item => item.Phase)
            .ToList();
        return new KitList
        {
            Items = items,
            Refused = [.. refused.Select(rule => new KitRefusal(rule.Id, rule.Devices, Fill(rule.Reason, query), rules.Sources[rule.Source]))],
            Spans = [.. MissingInputs(query)],
            Cautions = [.. CautionsFor(query, rules, tube)],
            RulesVersion = rules.Version,
            RulesDate = rules.Date,
            RulesOwner = rules.Owner,
        };
    }

    private static KitItem Item(ItemRule rule, KitQuery query, KitRules rules, IReadOnlyList<double> tubeSizes)
    {
        var reading = rule.Sizes is { } table ? rules.Read(table, query, tubeSizes) : null;
        KitNote[] asks = [.. rule.Asks.Where(ask => ask.When.Holds(query))
            .Select(ask => new KitNote(ask.Id, ask.Text, rules.Sources[ask.Source]))];
        return new KitItem
        {
            Id = rule.Id,
            Reference = rule.Reference,
            Name = rule.Name,
            Size = reading?.Text ?? rule.Size,
            SpareSize = reading?.Spare ?? rule.SpareSize,
            Sizes = reading?.Sizes ?? [],
            Quantity = rule.Quantity,
            QuantityPer = rule.Per,
            Phase = rule.Phase,
            CarriedBy = rule.CarriedBy,
            Why = Fill(rule.Why, query),
            Source = rules.Sources[rule.Source],
            SafetyCritical = rule.SafetyCritical,
            TwoPeople = rule.TwoPeople,
            NeedsConfirmation = rule.Confirm || asks.Length > 0 || reading is { NeedsConfirmation: true },
            Asks = asks,
        };
    }

    private static IEnumerable<string> MissingInputs(KitQuery query)
    {
        if (query.WeightGrams is null)
            yield return FormattableString.Invariant(
                $"Weight is not known: sizes that go by weight span every band from {KitQuery.MinWeightGrams:N0} to {KitQuery.MaxWeightGrams:N0} g.");
        if (query.GestationWeeks is null)
            yield return FormattableString.Invariant(
                $"Gestation is not known: sizes that go by gestation span every band from {KitQuery.MinGestationWeeks} to {KitQuery.MaxGestationWeeks} weeks.");
    }

    private static IEnumerable<KitNote> CautionsFor(KitQuery query, KitRules rules, SizeReading tube)
    {
        if (!rules.ClinicallyOwned)
            yield return new KitNote("owner", FormattableString.Invariant(
                $"Kit rules {rules.Version}, owner: {rules.Owner}. Safety-critical rows need a named clinical owner before use."), RuleSource.Project);
        if (query.WeightGrams is < UnusuallyLightGrams)
            yield return new KitNote("IL-08", FormattableString.Invariant(
                $"{query.WeightGrams} g is unusually light: read the scale again."), RuleSource.Project);
        if (tube.MeasuresDisagree)
            yield return new KitNote("IL-08", FormattableString.Invariant(
                $"{query.WeightGrams:N0} g and {query.GestationWeeks} weeks fall in different rows of the tube table: check both, and carry both sizes."),
                RuleSource.Project);
        var filterAtAirway = query.Precautions.HasFlag(PrecautionSet.Airborne)
            || query.Devices.Contains(KitDevice.AirwayFilter) || query.Devices.Contains(KitDevice.HeatAndMoistureExchanger);
        if (filterAtAirway)
            yield return rules.DeadSpace.Caution(query, rules);
    }

    private static string Fill(string text, KitQuery query) => text
        .Replace("{journeyMinutes}", query.JourneyMinutes.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)
        .Replace("{weight}", FormattableString.Invariant($"{query.WeightGrams:N0} g"), StringComparison.Ordinal);
}
