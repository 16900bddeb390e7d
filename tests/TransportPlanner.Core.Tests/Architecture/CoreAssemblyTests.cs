using System.Reflection;
using System.Runtime.InteropServices;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Architecture;

public sealed class CoreAssemblyTests
{
    private const string Root = "TransportPlanner.Core.";

    private static readonly Assembly Core = typeof(GaugePressure).Assembly;
    private static readonly CompiledAssembly Compiled = CompiledAssembly.Of(Core);

    private static readonly string[] Basics = ["Units", "Precautions"];
    private static readonly string[] TravelChain = [.. Basics, "FloorPlans", "Travel", "Exposure", "Routing", "Posts"];

    /// <summary>What each namespace may see. A namespace that is not named here is not part of the design.</summary>
    private static readonly Dictionary<string, string[]> MaySee = new()
    {
        ["Units"] = [],
        ["Precautions"] = ["Units"],
        ["Gas"] = Basics,
        ["Kits"] = Basics,
        ["Batteries"] = Basics,
        ["Airing"] = Basics,
        ["FloorPlans"] = Basics,
        ["Travel"] = TravelChain[..3],
        ["Exposure"] = TravelChain[..4],
        ["Routing"] = TravelChain[..5],
        ["Posts"] = TravelChain[..6],
        ["Plans"] = [.. TravelChain, "Gas", "Kits", "Batteries", "Airing"],
    };

    // Seen to fail: with a package reference and a call of a logging library in Units, it named that library.
    [Fact]
    public void Core_refers_only_to_the_framework_and_two_libraries()
    {
        var framework = RuntimeEnvironment.GetRuntimeDirectory();

        Findings.None(Compiled.References
            .Where(name => name is not ("QuikGraph" or "NetTopologySuite") && !File.Exists(Path.Combine(framework, name + ".dll"))));
    }

    // Seen to fail: with FloorPlans.Place named only inside a lambda of a Units type, it named both types.
    [Fact]
    public void Namespaces_depend_on_each_other_in_one_direction_only() =>
        Findings.None(
            from use in Compiled.Uses
            let user = NamespaceIn(use.User)
            let used = NamespaceIn(use.Used)
            where user is not null && used is not null && user != used
            where !MaySee.TryGetValue(user, out var allowed) || !allowed.Contains(used)
            select $"{use.User} sees {use.Used}");

    // Seen to fail: with a class in the namespace TransportPlanner.Core.Helpers, it named that class.
    [Fact]
    public void Every_type_lives_in_a_namespace_of_the_design() =>
        Findings.None(
            from type in Core.GetTypes()
            where !type.IsNested && !IsMadeByTheCompiler(type) && !MaySee.Keys.Any(name => type.Namespace == Root + name)
            select $"{type}");

    // Seen to fail: with a public property of a Units type that was an AdjacencyGraph, it named the property's type.
    [Fact]
    public void No_public_signature_names_a_graph_library_type() =>
        Findings.None(
            from use in Compiled.PublicSignatureUses
            where use.Used.Namespace.StartsWith("QuikGraph", StringComparison.Ordinal)
            select $"{use.User} shows {use.Used}");

    // Seen to fail: with a public list of Point in a Units type, it named Point.
    [Fact]
    public void Only_floor_plans_show_geometry_library_types() =>
        Findings.None(
            from use in Compiled.PublicSignatureUses
            where use.Used.Namespace.StartsWith("NetTopologySuite", StringComparison.Ordinal) && NamespaceIn(use.User) != "FloorPlans"
            select $"{use.User} shows {use.Used}");

    // Seen to fail: with a public class that was not sealed, it named that class.
    [Fact]
    public void Every_class_is_sealed_static_or_abstract() =>
        Findings.None(from type in Core.GetTypes() where type.IsClass && !type.IsSealed && !type.IsAbstract select $"{type}");

    private static bool IsMadeByTheCompiler(Type type) =>
        type.Name.StartsWith('<') || type.GetCustomAttributesData().Any(data => data.AttributeType.Name is "CompilerGeneratedAttribute" or "EmbeddedAttribute");

    private static string? NamespaceIn(TypeName type) =>
        type.Namespace.StartsWith(Root, StringComparison.Ordinal) ? type.Namespace[Root.Length..] : null;
}
