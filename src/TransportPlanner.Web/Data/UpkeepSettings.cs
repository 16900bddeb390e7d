using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;
using static TransportPlanner.Web.Data.SettingKinds;

namespace TransportPlanner.Web.Data;

/// <summary>When facts of the building count as old, how its weeks differ from the mean, and how fast its ways were walked.</summary>
internal static class UpkeepSettings
{
    public static readonly Setting<int> AirChangesStaleMonths = Count("airChangesStaleMonths", "months", 12, 1, 240, "Air changes measured or drawn this long ago or longer are a finding of the floor plan and are named on the sheet. No source (project proposal).");

    public const int MaxCrowdTimes = 200;

    /// <summary>How the calendar is written; a member that it does not have is refused.</summary>
    public static readonly JsonSerializerOptions CrowdJson = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
    };

    public static readonly Setting<ImmutableArray<CrowdTime>> CrowdCalendar = new()
    {
        Name = "crowdCalendar",
        Unit = "",
        Assumed = [],
        Description = "Times of the week at which places hold more or fewer people than the floor plan's mean: visiting, meals, shift change, linen, teaching. People = mean × every factor in force + every addition in force.",
        Allowed = "a list of at most 200 entries of kind, places, days, fromMinute, toMinute (quarter-hours of one day), times (0 to 100), adds (0 to 10,000 people), owner (a role) and date",
        Parse = json =>
        {
            try
            {
                return json.ValueKind == JsonValueKind.Array && json.GetArrayLength() <= MaxCrowdTimes
                    && json.Deserialize<ImmutableArray<CrowdTime>>(CrowdJson) is var times && times.All(time => time is not null && time.WhyRefused() is null) ? (true, times) : default;
            }
            catch (JsonException)
            {
                return default;
            }
        },
    };

    public const int MaxWalkTimes = 200;

    public static readonly Setting<ImmutableArray<WalkTime>> WalkTimes = new()
    {
        Name = "walkTimes",
        Unit = "",
        Assumed = [],
        Description = "Straight walks with the loaded incubator, timed on the page of a way. Nothing is planned with them until somebody confirms their speed there.",
        Allowed = "a list of at most 200 entries of place, from, to, metres (5 to 500), seconds (at most 3 m/s and at least 0.1 m/s), by (a role) and date",
        Parse = json => Read<ImmutableArray<WalkTime>>(json) is { IsDefault: false, Length: <= MaxWalkTimes } walks && walks.All(walk => walk is not null && walk.WhyRefused() is null)
            ? (true, walks)
            : default,
    };

    public static readonly Setting<MeasuredPace?> MeasuredIncubatorSpeed = new()
    {
        Name = "measuredIncubatorSpeed",
        Unit = "",
        Assumed = null,
        Description = "The timed walks from which a person confirmed the three incubator speeds; null: those are not measured. A plan says measured only while the three speeds are these.",
        Allowed = "count (at least 5), slowest, median, fastest (m/s, in order, 0.1 to 3), first and last (days), or null",
        Parse = json => json.ValueKind == JsonValueKind.Null ? (true, null) : Read<MeasuredPace>(json) is { } pace && pace.IsPossible() ? (true, pace) : default,
    };

    /// <summary>The measurement on which the incubator's speeds rest; null where they are assumed, or somebody typed others since.</summary>
    public static MeasuredPace? MeasuredSpeedInForce(SiteSettings settings) =>
        settings.Get(MeasuredIncubatorSpeed) is { } pace
            && !settings.IsAssumed(SiteSettings.IncubatorSpeedLikely)
            && settings.Get(SiteSettings.IncubatorSpeedMinimum) == pace.Slowest
            && settings.Get(SiteSettings.IncubatorSpeedLikely) == pace.Median
            && settings.Get(SiteSettings.IncubatorSpeedMaximum) == pace.Fastest
            ? pace
            : null;

    /// <summary>Every setting of this page, in the order in which it is shown.</summary>
    public static readonly IReadOnlyList<Setting> All = [AirChangesStaleMonths, CrowdCalendar, WalkTimes, MeasuredIncubatorSpeed];

    private static T? Read<T>(JsonElement json)
    {
        try
        {
            return json.Deserialize<T>(CrowdJson);
        }
        catch (JsonException)
        {
            return default;
        }
    }
}
