using System.Text.Json;
using System.Text.Json.Serialization;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Kits;

/// <summary>The rule file in memory: one version, one date, one owner. Changing a rule means changing the file, not code.</summary>
internal sealed record KitRules
{
    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    /// <summary>The rules that ship with the product.</summary>
    internal static KitRules BuiltIn { get; } = Parse(ReadBuiltIn());

    public required string Version { get; init; }
    public required DateOnly Date { get; init; }
    public required string Owner { get; init; }

    /// <summary>True only where <see cref="Owner"/> is a clinician who signed the safety-critical rows.</summary>
    public required bool ClinicallyOwned { get; init; }
    public required IReadOnlyDictionary<string, RuleSource> Sources { get; init; }
    public required IReadOnlyDictionary<string, SizeTable> Sizes { get; init; }
    public required IReadOnlyList<ItemRule> Items { get; init; }
    public required IReadOnlyList<RefusalRule> Refusals { get; init; }
    public required DeadSpaceRule DeadSpace { get; init; }
    public required WearRules Wear { get; init; }

    /// <summary>Reads a rule file strictly: an unknown member, a missing one, or a source or size table that is not in the file is refused.</summary>
    /// <exception cref="FormatException">The file breaks one of these; the message names the rule.</exception>
    internal static KitRules Parse(string json)
    {
        KitRules rules;
        try
        {
            rules = JsonSerializer.Deserialize<KitRules>(json, Json) ?? throw new FormatException("The rule file is empty.");
        }
        catch (JsonException problem)
        {
            throw new FormatException($"The rule file cannot be read at {problem.Path}: {problem.Message}", problem);
        }

        foreach (var (rule, source) in rules.CitedSources())
        {
            if (!rules.Sources.ContainsKey(source))
                throw new FormatException($"Rule {rule} cites the source '{source}', which the file does not list.");
        }

        foreach (var item in rules.Items)
        {
            if (item.Sizes is { } table && !rules.Sizes.ContainsKey(table))
                throw new FormatException($"Rule {item.Id} reads the size table '{table}', which the file does not have.");
        }

        if (rules.Items.FirstOrDefault(item => item is { TwoPeople: true, SafetyCritical: false }) is { } light)
            throw new FormatException($"Rule {light.Id} needs two people and is not safety-critical: it is one or the other.");
        if (rules.Items.GroupBy(item => item.Id).FirstOrDefault(group => group.Count() > 1) is { } twice)
            throw new FormatException($"Rule {twice.Key} stands twice in the file.");
        return rules;
    }

    internal static string ReadBuiltIn()
    {
        using var stream = typeof(KitRules).Assembly.GetManifestResourceStream("kit-rules.json")
            ?? throw new InvalidOperationException("The assembly was built without its kit rules.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    internal SizeReading Read(string table, KitQuery query, IReadOnlyList<double> tubeMillimetres) =>
        Sizes[table].Read(query, tubeMillimetres, Sources);

    private IEnumerable<(string Rule, string Source)> CitedSources()
    {
        var steps = Wear.Sets.SelectMany(set => set.On.Concat(set.Off)).Select(step => (step.Id, step.Source));
        return Items.Select(item => (item.Id, item.Source))
            .Concat(Items.SelectMany(item => item.Asks).Select(ask => (ask.Id, ask.Source)))
            .Concat(Sizes.Values.SelectMany(table => table.Rows).Select(row => (row.Id, row.Source)))
            .Concat(Refusals.Select(refusal => (refusal.Id, refusal.Source)))
            .Append((DeadSpace.Id, DeadSpace.Source))
            .Append(("watcher", Wear.Watcher.Source))
            .Concat(steps)
            .Concat(Wear.Sets.SelectMany(set => set.Roles.Select(role => (set.Id, role.Source))))
            .Concat(Wear.Durations.Select(duration => (duration.Id, duration.Source)))
            .Concat(Wear.Cautions.Select(caution => (caution.Id, caution.Source)));
    }
}

/// <summary>When a rule applies. Every part that is given must hold; a limit on an unknown weight or gestation holds, so that it is asked.</summary>
internal sealed record RuleCondition
{
    internal static RuleCondition Always { get; } = new();

    public IReadOnlyList<RespiratorySupport> Supports { get; init; } = [];

    /// <summary>At least one of these is in force.</summary>
    public IReadOnlyList<PrecautionSet> Precautions { get; init; } = [];

    /// <summary>None of these is in force.</summary>
    public IReadOnlyList<PrecautionSet> WithoutPrecautions { get; init; } = [];
    public KitDevice? Device { get; init; }
    public int? WeightBelowGrams { get; init; }
    public int? GestationBelowWeeks { get; init; }
    public bool WeightUnknown { get; init; }
    public bool GestationUnknown { get; init; }

    internal bool Holds(KitQuery query) =>
        (Supports.Count == 0 || Supports.Contains(query.Support))
        && (Precautions.Count == 0 || Precautions.Any(precaution => query.Precautions.HasFlag(precaution)))
        && !WithoutPrecautions.Any(precaution => query.Precautions.HasFlag(precaution))
        && (Device is not { } device || query.Devices.Contains(device))
        && !(query.WeightGrams >= WeightBelowGrams)
        && !(query.GestationWeeks >= GestationBelowWeeks)
        && !(WeightUnknown && query.WeightGrams is not null)
        && !(GestationUnknown && query.GestationWeeks is not null);
}

internal sealed record ItemRule
{
    public required string Id { get; init; }
    public required string Reference { get; init; }
    public required string Name { get; init; }
    public string? Size { get; init; }
    public string? SpareSize { get; init; }

    /// <summary>Name of a size table.</summary>
    public string? Sizes { get; init; }
    public required int Quantity { get; init; }
    public QuantityBasis Per { get; init; } = QuantityBasis.Transport;
    public required KitPhase Phase { get; init; }
    public required TransportRole CarriedBy { get; init; }
    public required string Why { get; init; }
    public required string Source { get; init; }
    public required bool SafetyCritical { get; init; }
    public bool TwoPeople { get; init; }
    public bool Confirm { get; init; }
    public RuleCondition When { get; init; } = RuleCondition.Always;
    public IReadOnlyList<AskRule> Asks { get; init; } = [];
}

internal sealed record AskRule(string Id, string Text, string Source)
{
    public RuleCondition When { get; init; } = RuleCondition.Always;
}

internal sealed record RefusalRule(string Id, IReadOnlyList<KitDevice> Devices, string Reason, string Source)
{
    /// <summary>Refused below this weight only. An unknown weight is asked for, not refused.</summary>
    public int? WeightBelowGrams { get; init; }

    /// <summary>Where one of these is in force, another rule asks for the device: both are then shown and a person is asked.</summary>
    public IReadOnlyList<PrecautionSet> WithoutPrecautions { get; init; } = [];

    internal bool Applies(KitQuery query) =>
        Devices.All(query.Devices.Contains) && (WeightBelowGrams is not { } limit || query.WeightGrams < limit)
        && !WithoutPrecautions.Any(precaution => query.Precautions.HasFlag(precaution));
}
