using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Routing;

/// <summary>From where to where, who travels and when, under which precautions.</summary>
public sealed record RouteRequest
{
    /// <summary>Slug of the site, such as demonstration.</summary>
    [Length(1, 100, ErrorMessage = "Give the slug of a site, 1 to 100 characters.")]
    public required string SiteId { get; init; }

    /// <summary>Number of the place where the journey starts.</summary>
    [Length(1, 100, ErrorMessage = "Give the number of a place, 1 to 100 characters.")]
    public required string From { get; init; }

    /// <summary>Number of the place where it ends.</summary>
    [Length(1, 100, ErrorMessage = "Give the number of a place, 1 to 100 characters.")]
    public required string To { get; init; }

    /// <summary>When the team leaves. Left out: now, assumed. Costs are those of its local quarter-hour; closures that touch the hour after it forbid.</summary>
    public DateTimeOffset? DepartAt { get; init; }

    /// <summary>Precautions in force, as infection prevention entered them: at least one. They decide which exposure ranks the ways.</summary>
    [MinLength(1, ErrorMessage = "Give at least one of contact, droplet, airborne.")]
    public required IReadOnlyList<Precaution> Precautions { get; init; }

    /// <summary>What moves. Left out: an incubator of 1.50 × 0.75 × 1.60 m, 140 kg, with the site's crew, assumed.</summary>
    public ConveyanceRequest? Conveyance { get; init; }

    /// <summary>Whether somebody keeps each car that can be held, so that nobody waits there. Left out: yes, assumed.</summary>
    public bool? HeldElevators { get; init; }

    /// <summary>Whether a clean helper opens doors and presses buttons ahead of the team. Left out: yes, assumed.</summary>
    public bool? WithHelper { get; init; }

    /// <summary>Minutes that the team could wait: each later quarter-hour that begins within them is compared. 0: none.</summary>
    [Range(0, 180, ErrorMessage = "Give 0 to 180 minutes.")]
    public int DepartureWindowMinutes { get; init; }

    /// <summary>Whether an unknown limit counts as an obstacle. Left out: no; a way with unknown limits is then shown with them.</summary>
    public bool AvoidUnknown { get; init; }
}

/// <summary>Outer size of the incubator with everything hung on it, its mass, and the crew beside it.</summary>
public sealed record ConveyanceRequest
{
    private const double MinMetres = 0.1;

    /// <summary>Metres.</summary>
    [Range(MinMetres, Conveyance.MaxMetres, ErrorMessage = "Is this in metres? Give 0.1 to 5 m.")]
    public required double LengthMetres { get; init; }

    /// <summary>Metres.</summary>
    [Range(MinMetres, Conveyance.MaxMetres, ErrorMessage = "Is this in metres? Give 0.1 to 5 m.")]
    public required double WidthMetres { get; init; }

    /// <summary>Metres.</summary>
    [Range(MinMetres, Conveyance.MaxMetres, ErrorMessage = "Is this in metres? Give 0.1 to 5 m.")]
    public required double HeightMetres { get; init; }

    /// <summary>Kilograms, everything on it, without the crew.</summary>
    [Range(1, Conveyance.MaxKilograms, ErrorMessage = "Give 1 to 1000 kg, the crew left out.")]
    public required double MassKilograms { get; init; }

    /// <summary>People who walk and ride with it. Left out: the site's crew.</summary>
    [Range(1, Conveyance.MaxCrew, ErrorMessage = "Give a crew of 1 to 12.")]
    public int? Crew { get; init; }

    internal Conveyance ToConveyance(int siteCrew) => new(
        Distance.FromMetres(LengthMetres), Distance.FromMetres(WidthMetres), Distance.FromMetres(HeightMetres), MassKilograms, Crew ?? siteCrew);
}

/// <summary>Why there is no answer with ways.</summary>
internal enum RouteProblem
{
    /// <summary>The floor plan in force has no such place to start or to end at.</summary>
    UnknownPlace,
    /// <summary>Origin and destination are one place.</summary>
    SamePlace,
    /// <summary>No way leads there: <c>obstacle</c> names the first thing in the way and the figure that fails.</summary>
    NoRoute,
}

/// <summary>A figure that nobody has measured, so that a limit was not checked.</summary>
/// <param name="Limit">The limit that was to be checked.</param>
/// <param name="Element">Whether the id is a place's, a passage's or an elevator's.</param>
/// <param name="Id">Number of the place, or id of the passage or elevator.</param>
/// <param name="Passage">What kind of passage it is; null for a place and an elevator.</param>
public sealed record UnmeasuredResponse(LimitKind Limit, Core.FloorPlans.ClosureTarget Element, string Id, Core.FloorPlans.PassageKind? Passage)
{
    internal static UnmeasuredResponse From(UnknownLimit unknown) => new(unknown.Kind, unknown.Element, unknown.Id, unknown.Passage);

    internal UnknownLimit ToLimit() => new(Limit, Element, Id, Passage);
}

/// <summary>The first thing in the way.</summary>
/// <param name="Limit">Which limit fails.</param>
/// <param name="Element">Whether the id is a place's, a passage's or an elevator's.</param>
/// <param name="Id">Number of the place, or id of the passage or elevator.</param>
/// <param name="Present">The figure that is there, in the unit of the limit; null where it is unknown or the limit has none.</param>
/// <param name="Needed">The figure needed, or the highest allowed; null where the limit has none.</param>
public sealed record ObstacleResponse(LimitKind Limit, Core.FloorPlans.ClosureTarget Element, string Id, double? Present, double? Needed)
{
    internal static ObstacleResponse From(Obstacle obstacle) => new(obstacle.Kind, obstacle.Element, obstacle.Id, obstacle.Present, obstacle.Needed);
}
