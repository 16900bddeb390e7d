using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>One leg of the strip. The shares of all legs add up to the figures of the way.</summary>
/// <param name="Leg">The leg.</param>
/// <param name="Landmark">Where it leads, in names that stand on the wall.</param>
/// <param name="Length">Its share of the way's whole metres, or feet.</param>
/// <param name="UsuallySeconds">Its share of the usual time; null in plans of earlier releases.</param>
/// <param name="NearlyAlwaysSeconds">Its share of the nearly-always time.</param>
internal sealed record StripLine(LegResponse Leg, string Landmark, int Length, int? UsuallySeconds, int? NearlyAlwaysSeconds);

/// <summary>A bail-out point with the letter by which it is called on the radio. Letters A to D are ways, so these begin at E.</summary>
internal sealed record BailOutLetter(char Letter, NearbyPlace Point);

/// <summary>The way on one strip of paper: a line for each leg, and the bail-out points lettered in the order in which they are met.</summary>
internal sealed record RouteStrip(IReadOnlyList<StripLine> Lines, IReadOnlyList<BailOutLetter> BailOuts)
{
    // Without I and O, which are read as figures.
    private const string Letters = "EFGHJKLMNPQRSTUVWXYZ";

    /// <param name="way">The way that is taken.</param>
    /// <param name="names">Names of places by their numbers; a number without one stands alone.</param>
    /// <param name="show">Metres or feet.</param>
    public static RouteStrip Of(RouteResponse way, IReadOnlyDictionary<string, string> names, SiteDisplay show)
    {
        List<StripLine> lines = [];
        var lengths = Lengths(way, show);
        var before = (Usually: 0, NearlyAlways: 0);
        foreach (var (index, leg) in way.Legs.Index())
        {
            lines.Add(new(leg, Landmark(leg, names), lengths[index], leg.Ends?.UsuallySeconds - before.Usually, leg.Ends?.NearlyAlwaysSeconds - before.NearlyAlways));
            before = (leg.Ends?.UsuallySeconds ?? 0, leg.Ends?.NearlyAlwaysSeconds ?? 0);
        }

        var points = way.Legs.SelectMany(Points).DistinctBy(point => point.Place).Take(Letters.Length);
        return new(lines, [.. points.Select((point, i) => new BailOutLetter(Letters[i], point))]);
    }

    /// <summary>Of each leg in whole metres or feet that add up to the way's: differences of running figures, so that what is rounded in one line stands in the next.</summary>
    public static IReadOnlyList<int> Lengths(RouteResponse way, SiteDisplay show)
    {
        List<int> ends = [0];
        var metres = 0.0;
        foreach (var leg in way.Legs)
        {
            metres += leg.Metres;
            ends.Add(show.Whole(leg == way.Legs[^1] ? way.Metres : metres));
        }

        return [.. ends.Zip(ends.Skip(1), (from, to) => to - from)];
    }

    /// <summary>The letter of a place, or its number where there are more places than letters.</summary>
    public string Letter(NearbyPlace point) => BailOuts.FirstOrDefault(lettered => lettered.Point.Place == point.Place) is { } found ? $"{found.Letter}" : point.Place;

    private static IEnumerable<NearbyPlace> Points(LegResponse leg) =>
        new[] { leg.WaysOut?.BailOutBack, leg.WaysOut?.BailOutOnward, leg.BailOut }.OfType<NearbyPlace>();

    private static string Landmark(LegResponse leg, IReadOnlyDictionary<string, string> names)
    {
        string Place(string number) => names.TryGetValue(number, out var name) ? PostsWords.Place(number, name) : number;
        return leg.Elevator is { } ride ? PackText.Of(PackTexts.Ride, ride.Name, ride.FromLevel, ride.ToLevel)
            : leg.FromPlace == leg.ToPlace ? Place(leg.FromPlace)
            : $"{Place(leg.FromPlace)} → {Place(leg.ToPlace)}";
    }
}
