using System.Security.Cryptography;

namespace TransportPlanner.Web.Plans;

/// <summary>Two words to say on a radio instead of a name. They identify nobody and are not unique: the id is.</summary>
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

    public static string New() => $"{Tones[RandomNumberGenerator.GetInt32(Tones.Length)]} {Birds[RandomNumberGenerator.GetInt32(Birds.Length)]}";
}
