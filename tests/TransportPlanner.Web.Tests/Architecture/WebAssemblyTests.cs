using System.Reflection;
using TransportPlanner.Core.Tests.Architecture;

namespace TransportPlanner.Web.Tests.Architecture;

public sealed class WebAssemblyTests
{
    private const string Root = "TransportPlanner.Web.";

    private static readonly Assembly Web = typeof(Program).Assembly;
    private static readonly CompiledAssembly Compiled = CompiledAssembly.Of(Web);

    /// <summary>Seen by every feature; sees no feature.</summary>
    private static readonly string[] Shared = ["Data", "Http", "Shared"];

    /// <summary>May see every feature: a plan is composed of all answers, and the command line offers all of them.</summary>
    private static readonly string[] Composers = ["Plans", "Commands"];

    // Seen to fail: with a type of Kits named by typeof in Gas, it named both.
    [Fact]
    public void Features_see_core_data_and_http_but_never_each_other() =>
        Findings.None(
            from use in Compiled.Uses
            let user = FolderOf(use.User)
            let used = FolderOf(use.Used)
            where user is not null && used is not null && user != used
            where !Shared.Contains(used) && !Composers.Contains(user)
            select $"{use.User} sees {use.Used}");

    // Seen to fail: with an Edge made in Gas.
    [Fact]
    public void Graph_algorithms_stay_behind_core() =>
        Findings.None(Compiled.References.Where(name => name == "QuikGraph"));

    // Seen to fail: with a public class in Kits that was not sealed.
    [Fact]
    public void Every_class_is_sealed_static_or_abstract() =>
        Findings.None(
            from type in Web.GetTypes()
            where type.IsClass && !type.IsSealed && !type.IsAbstract
            // The build writes the members of a resource file into an open class.
            where type.GetCustomAttribute<System.CodeDom.Compiler.GeneratedCodeAttribute>()?.Tool is not "Microsoft.Build.Tasks.StronglyTypedResourceBuilder"
            where type.Namespace is null || (type.Namespace.StartsWith(Root, StringComparison.Ordinal) && !type.Namespace.Contains(".Migrations", StringComparison.Ordinal))
            select $"{type}");

    private static string? FolderOf(TypeName type) =>
        type.Namespace.StartsWith(Root, StringComparison.Ordinal) ? type.Namespace[Root.Length..].Split('.')[0] : null;
}
