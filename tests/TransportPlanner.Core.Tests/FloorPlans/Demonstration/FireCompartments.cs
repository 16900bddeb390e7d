using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>
/// The invented fire plan: on each storey the two wings and the block between them are one compartment each, each stair is one of its own.
/// What openings join stays together.
/// </summary>
internal static class FireCompartments
{
    private static readonly DateOnly Drawn = new(2024, 9, 2);

    public static IEnumerable<Place> Assign(IReadOnlyList<Place> places, IEnumerable<Passage> passages)
    {
        var group = places.ToDictionary(place => place.Number, place => place.Number);
        foreach (var opening in passages.Where(passage => passage.Kind == PassageKind.Opening))
        {
            var (kept, merged) = (group[opening.From], group[opening.To]);
            foreach (var number in group.Where(pair => pair.Value == merged).Select(pair => pair.Key).ToList())
            {
                group[number] = kept;
            }
        }

        var names = places.GroupBy(place => group[place.Number]).ToDictionary(joined => joined.Key, joined => NameOf(joined.MaxBy(place => place.Outline.AreaSquareMetres)!));
        return places.Select(place => place.Level is null ? place : place with { FireCompartment = Fact.Drawing(new FireCompartment(names[group[place.Number]]), Drawn) });
    }

    private static string NameOf(Place place)
    {
        var middle = (place.Outline.Corners.Min(corner => corner.X) + place.Outline.Corners.Max(corner => corner.X)) / 2;
        return place.Kind == PlaceKind.Stairwell ? place.Number[..3] : place.Level + (middle < Wing.West.End ? "W" : middle < Wing.East.Start ? "C" : "E");
    }
}
