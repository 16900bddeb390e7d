using System.Security.Cryptography;

namespace TransportPlanner.Web.Data;

/// <summary>A transport's plan: the id names the transport, the versions hold what was planned.</summary>
internal sealed class StoredPlan : IVersioned
{
    /// <summary>128 random bits in hexadecimal.</summary>
    public required string Id { get; init; }

    /// <summary>Two words, for radio and paper.</summary>
    public required string CallSign { get; init; }
    public required string SiteId { get; init; }
    public required DateTimeOffset CreatedAt { get; init; }
    public required int CurrentVersion { get; set; }

    /// <summary>Of the current version: what else is under way then is looked up by it.</summary>
    public DateTimeOffset DepartAt { get; set; }

    /// <summary>Of the current version.</summary>
    public DateTimeOffset VoidAfter { get; set; }
    public long Version { get; set; }
}

/// <summary>A plan as it was made: never changed. Holds no weight and no gestation.</summary>
internal sealed class PlanVersion
{
    public required string PlanId { get; init; }
    public required int Number { get; init; }
    public required int FloorPlanVersion { get; init; }
    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>The whole answer as JSON text.</summary>
    public required string Snapshot { get; init; }
}

/// <summary>What is known of the infant. Deleted after 24 hours, apart from everything else.</summary>
internal sealed class ClinicalInput
{
    public required string PlanId { get; init; }
    public int? WeightGrams { get; set; }
    public int? GestationWeeks { get; set; }
    public required DateTimeOffset EnteredAt { get; set; }
}

internal static class RandomId
{
    /// <summary>128 random bits in hexadecimal: nobody finds a plan by guessing or counting.</summary>
    public static string New() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
}
