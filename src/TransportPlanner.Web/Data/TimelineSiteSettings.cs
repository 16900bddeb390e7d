using System.Globalization;
using System.Text.Json;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using static TransportPlanner.Web.Data.SettingKinds;

namespace TransportPlanner.Web.Data;

/// <summary>How long the steps around go last at a site, when its shifts change, and what is worn on the way.</summary>
internal static class TimelineSiteSettings
{
    private const int MaxMinutes = StepTime.MaxSeconds / 60;

    private static readonly TimelineSettings Proposal = new();

    public static readonly (Setting<double> Planned, Setting<double> Urgent) Call = Pair("call", Proposal.Call, "From the first call until everybody who is called stands at the huddle. No source: time it in a drill.");
    public static readonly (Setting<double> Planned, Setting<double> Urgent) Huddle = Pair("huddle", Proposal.Huddle, "The huddle before kit and wear. No source.");
    public static readonly (Setting<double> Planned, Setting<double> Urgent) Kit = Pair("kit", Proposal.Kit, "Kit, gas and batteries gathered and checked. Source: 4.5 min a phase of a checklist, adults (Brunsveld-Reinders 2015, abstract).");
    public static readonly (Setting<double> Planned, Setting<double> Urgent) Loading = Pair("loading", Proposal.Loading, "The infant into the incubator, lines secured; 0 where others do it meanwhile. No source.");
    public static readonly (Setting<double> Planned, Setting<double> Urgent) TimeOut = Pair("timeOut", Proposal.TimeOut, "Bands, tag, lines and flow, spoken, before leaving. No source.");
    public static readonly (Setting<double> Planned, Setting<double> Urgent) Wipe = Pair("wipe", Proposal.Wipe, "Outside of the incubator wiped, with the product's contact time. No source.");
    public static readonly Setting<double> Trial = Minutes("trialMinutes", Proposal.Trial.PlannedSeconds, "Trial on the transport ventilator before leaving, at either tempo. No source for the figure.");
    public static readonly Setting<int> GoCheck = Count("goCheckSeconds", "s", Proposal.GoCheck.PlannedSeconds, 0, 600, "Support, flow and gauge read again and two voices, at either tempo. No source.");
    public static readonly Setting<double> HandOver = Minutes("handOverMinutes", Proposal.HandOver.PlannedSeconds, "Hand-over at the destination. No source.");

    public static readonly Setting<int?> DonningPlanned = Seconds("donningSecondsPlanned", "Putting on protective wear, watched, for one person at the planned tempo; null: what is published or proposed for the set in force.");
    public static readonly Setting<int?> DonningUrgent = Seconds("donningSecondsUrgent", "The same at the urgent tempo. In a simulated emergency 66 s was the median, and 21 percent were correctly protected.");
    public static readonly Setting<int?> Doffing = Seconds("doffingSeconds", "Taking it off, watched, for one person; null: what is published or proposed for the set in force.");

    public static readonly Setting<int> DonningTurnsPlanned = Count("donningTurnsPlanned", "turns", Proposal.DonningTurns.Planned, 1, Turns.Max, "Turns in which a group dresses at the planned tempo: pairs that watch each other need two. No source.");
    public static readonly Setting<int> DonningTurnsUrgent = Count("donningTurnsUrgent", "turns", Proposal.DonningTurns.Urgent, 1, Turns.Max, "The same at the urgent tempo, at most as many; 1: all dress at once and check each other before they enter. No source.");
    public static readonly Setting<int> DoffingAtOnce = Count("doffingAtOnce", "people", Proposal.DoffingAtOnce, 1, Turns.Max, "How many take off at once, each with a watcher of its own. No source.");
    public static readonly Setting<double> IncubatorCleaning = Minutes("incubatorCleaningMinutes", Proposal.IncubatorCleaning.PlannedSeconds, "The incubator cleaned, refilled and charged after the hand-over. No source: the longer end of 30 to 60 min, estimated.");

    public static readonly Setting<string?> ShiftChanges = new()
    {
        Name = "shiftChanges",
        Unit = "",
        Assumed = null,
        Description = "Local times at which shifts change, such as 07:00, 19:00; null: unknown, and no overlap with a shift change is looked for.",
        Allowed = "times of day as HH:mm with commas between them, at most 60 characters, or null for unknown",
        Parse = json => json.ValueKind switch
        {
            JsonValueKind.Null => (true, null),
            JsonValueKind.String when json.GetString() is { Length: <= 60 } text && Times(text) is { Count: > 0 } => (true, text),
            _ => default,
        },
    };

    public static readonly Setting<int> ShiftChangeMinutes = Count("shiftChangeMinutes", "min", 15, 0, 120, "For so long before and after a shift change its people are busy with it. No source.");
    public static readonly Setting<WearOnWay> WearOnWay = Choice("wearOnWay", Core.Plans.WearOnWay.KeptOn, "Whether those who give care keep the whole set on, or take gown and gloves off before leaving and put fresh ones on at the destination. Published rules disagree: infection prevention decides.");

    private static readonly IReadOnlyList<(Setting<double> Planned, Setting<double> Urgent)> Tempos = [Call, Huddle, Kit, Loading, TimeOut, Wipe];

    /// <summary>Every setting of this page, in the order in which it is shown.</summary>
    public static readonly IReadOnlyList<Setting> All =
    [
        .. Tempos.SelectMany(pair => new[] { pair.Planned, pair.Urgent }), Trial, GoCheck, HandOver, DonningPlanned, DonningUrgent, DonningTurnsPlanned, DonningTurnsUrgent, Doffing, DoffingAtOnce,
        IncubatorCleaning, ShiftChanges, ShiftChangeMinutes, WearOnWay,
    ];

    /// <summary>One sentence for each step that would last longer at the urgent tempo.</summary>
    public static IEnumerable<string> OrderErrors(SiteSettings settings) =>
        from pair in Tempos.Select(pair => (pair.Planned.Name, Planned: (double?)settings.Get(pair.Planned), Urgent: (double?)settings.Get(pair.Urgent)))
            .Append((DonningPlanned.Name, Planned: settings.Get(DonningPlanned), Urgent: settings.Get(DonningUrgent)))
            .Append((DonningTurnsPlanned.Name, Planned: settings.Get(DonningTurnsPlanned), Urgent: settings.Get(DonningTurnsUrgent)))
        where pair.Urgent > pair.Planned
        select string.Create(CultureInfo.InvariantCulture, $"{pair.Name}: give at least as long as the urgent tempo takes; got {pair.Planned} planned, {pair.Urgent} urgent.");

    public static TimelineSettings Of(SiteSettings settings, PrecautionSet precautions)
    {
        StepTime Pace((Setting<double> Planned, Setting<double> Urgent) pair, StepTime proposal) => Known(
            proposal with { PlannedSeconds = ToSeconds(settings.Get(pair.Planned)), UrgentSeconds = ToSeconds(settings.Get(pair.Urgent)) },
            settings.IsAssumed(pair.Planned), settings.IsAssumed(pair.Urgent));
        StepTime One(Setting setting, double minutes, StepTime proposal) =>
            settings.IsAssumed(setting) ? proposal : StepTime.Of(ToSeconds(minutes), OwnSource, isAssumed: false);
        var published = TimelineSettings.DonningFor(precautions);
        var (planned, urgent) = (settings.Get(DonningPlanned), settings.Get(DonningUrgent));
        return new()
        {
            Call = Pace(Call, Proposal.Call),
            Huddle = Pace(Huddle, Proposal.Huddle),
            HandHygiene = One(SiteSettings.HandHygieneSeconds, settings.Get(SiteSettings.HandHygieneSeconds) / 60.0, Proposal.HandHygiene),
            Kit = Pace(Kit, Proposal.Kit),
            Loading = Pace(Loading, Proposal.Loading),
            TimeOut = Pace(TimeOut, Proposal.TimeOut),
            Wipe = Pace(Wipe, Proposal.Wipe),
            Trial = One(Trial, settings.Get(Trial), Proposal.Trial),
            GoCheck = One(GoCheck, settings.Get(GoCheck) / 60.0, Proposal.GoCheck),
            HandOver = One(HandOver, settings.Get(HandOver), Proposal.HandOver),
            Donning = planned is null && urgent is null
                ? null
                : Known(published with { PlannedSeconds = planned ?? published.PlannedSeconds, UrgentSeconds = urgent ?? published.UrgentSeconds }, planned is null, urgent is null),
            DonningTurns = new(
                settings.Get(DonningTurnsPlanned), settings.Get(DonningTurnsUrgent), settings.IsAssumed(DonningTurnsPlanned) || settings.IsAssumed(DonningTurnsUrgent)),
            DoffingAtOnce = settings.Get(DoffingAtOnce),
            DoffingAtOnceIsAssumed = settings.IsAssumed(DoffingAtOnce),
            IncubatorCleaning = One(IncubatorCleaning, settings.Get(IncubatorCleaning), Proposal.IncubatorCleaning),
            Doffing = settings.Get(Doffing) is { } doffing ? StepTime.Of(doffing, OwnSource, isAssumed: false) : null,
        };
    }

    /// <summary>Shift changes from the day before to the day after, UTC; null: the site has not said when.</summary>
    public static IReadOnlyList<DateTimeOffset>? ShiftChangesAround(SiteSettings settings, DateTimeOffset go, TimeZoneInfo zone)
    {
        if (settings.Get(ShiftChanges) is not { } text)
        {
            return null;
        }

        var day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(go, zone).Date);
        return
        [
            .. from days in Enumerable.Range(-1, 3)
               from time in Times(text)
               let local = day.AddDays(days).ToDateTime(time)
               // An hour that the clocks leave out comes an hour later.
               let real = zone.IsInvalidTime(local) ? local.AddHours(1) : local
               select new DateTimeOffset(real, zone.GetUtcOffset(real)).ToUniversalTime(),
        ];
    }

    private const string OwnSource = "site setting";

    private static StepTime Known(StepTime time, bool plannedIsAssumed, bool urgentIsAssumed) => time with
    {
        Source = !plannedIsAssumed && !urgentIsAssumed ? OwnSource
            : plannedIsAssumed && urgentIsAssumed ? time.Source
            : $"{(plannedIsAssumed ? "urgent" : "planned")}: {OwnSource}; the other: {time.Source}",
        IsAssumed = plannedIsAssumed || urgentIsAssumed,
    };

    private static List<TimeOnly> Times(string text)
    {
        List<TimeOnly> times = [];
        foreach (var part in text.Split(',', StringSplitOptions.TrimEntries))
        {
            if (!TimeOnly.TryParseExact(part, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
            {
                return [];
            }

            times.Add(time);
        }

        return times;
    }

    private static int ToSeconds(double minutes) => (int)Math.Ceiling(minutes * 60 - 1e-9);

    private static (Setting<double> Planned, Setting<double> Urgent) Pair(string step, StepTime proposal, string description) =>
    (
        Minutes($"{step}MinutesPlanned", proposal.PlannedSeconds, $"Planned tempo. {description}"),
        Minutes($"{step}MinutesUrgent", proposal.UrgentSeconds, $"Urgent tempo, at most as long. {description}"));

    private static Setting<double> Minutes(string name, int seconds, string description) => Number(name, "min", seconds / 60.0, 0, MaxMinutes, description);

    private static Setting<int?> Seconds(string name, string description) => new()
    {
        Name = name,
        Unit = "s",
        Assumed = null,
        Description = description,
        Allowed = "a whole number from 1 to 3600 s, or null",
        Parse = json => json.ValueKind switch
        {
            JsonValueKind.Null => (true, null),
            JsonValueKind.Number when json.TryGetInt32(out var seconds) && seconds is >= 1 and <= 3600 => (true, seconds),
            _ => default,
        },
    };
}
