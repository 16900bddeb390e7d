using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Two words to say on a radio instead of a name. They identify nobody and come back on other days: the id is what is unique.</summary>
internal static class CallSign
{
    private static readonly string[] Tones =
    [
        "amber", "ashen", "blue", "bronze", "brown", "copper", "coral", "cream", "crimson", "dusky", "ebony", "emerald", "frosty", "golden", "green", "hazel",
        "indigo", "ivory", "jade", "lemon", "lilac", "maroon", "misty", "ochre", "olive", "orange", "pearl", "purple", "rosy", "ruby", "rusty", "sable",
        "saffron", "sandy", "scarlet", "silver", "slate", "snowy", "sunny", "tawny", "umber", "velvet", "violet", "white",
    ];

    private static readonly string[] Birds =
    [
        "bittern", "bunting", "buzzard", "condor", "cormorant", "crane", "curlew", "dipper", "dunlin", "egret", "eider", "falcon", "finch", "gannet", "godwit", "goshawk",
        "grebe", "heron", "hoopoe", "ibis", "kestrel", "kingfisher", "lapwing", "linnet", "magpie", "martin", "merlin", "oriole", "osprey", "ouzel", "pelican", "petrel",
        "pipit", "plover", "puffin", "redstart", "robin", "sandpiper", "siskin", "skylark", "sparrow", "starling", "swallow", "tern", "thrush", "wagtail", "warbler", "wren",
    ];

    /// <summary>
    /// Drawn at random; where it can be had, neither word belongs to a transport of the site that left within the last day or is
    /// still to leave: two transports must not be mistaken for each other on one channel.
    /// </summary>
    public static async Task<string> NewAsync(PlannerContext context, string siteId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var since = now.AddDays(-1);
        var taken = await context.Plans.Where(plan => plan.SiteId == siteId && plan.DepartAt >= since).Select(plan => plan.CallSign).ToListAsync(cancellationToken);
        return Choose(taken.ToHashSet());
    }

    /// <summary>One that shares no word with those taken; else one that is not taken; else any.</summary>
    public static string Choose(IReadOnlySet<string> taken)
    {
        var words = taken.SelectMany(sign => sign.Split(' ')).ToHashSet();
        var free = (from tone in Tones from bird in Birds where !taken.Contains($"{tone} {bird}") select (tone, bird)).ToList();
        var apart = free.Where(sign => !words.Contains(sign.tone) && !words.Contains(sign.bird)).ToList();
        return apart.Count > 0 ? Draw(apart) : free.Count > 0 ? Draw(free) : $"{RandomNumberGenerator.GetItems(Tones, 1)[0]} {RandomNumberGenerator.GetItems(Birds, 1)[0]}";
    }

    private static string Draw(List<(string Tone, string Bird)> signs)
    {
        var (tone, bird) = signs[RandomNumberGenerator.GetInt32(signs.Count)];
        return $"{tone} {bird}";
    }
}
