using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Web.Http;

/// <summary>One precaution in a request; a request carries a list of them, the computation a set.</summary>
public enum Precaution
{
    Contact,
    Droplet,
    Airborne,
}

internal static class PrecautionList
{
    public static PrecautionSet ToSet(this IEnumerable<Precaution> precautions) =>
        precautions.Aggregate(PrecautionSet.None, (set, precaution) => set | precaution switch
        {
            Precaution.Contact => PrecautionSet.Contact,
            Precaution.Droplet => PrecautionSet.Droplet,
            Precaution.Airborne => PrecautionSet.Airborne,
            _ => throw new ArgumentOutOfRangeException(nameof(precautions), precaution, "Unknown precaution."),
        });

    public static IReadOnlyList<Precaution> ToList(this PrecautionSet set) =>
        [.. Enum.GetValues<Precaution>().Where(p => set.HasFlag(new[] { p }.ToSet()))];
}
