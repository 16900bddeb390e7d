using System.Globalization;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using System.Resources;
using System.Text.RegularExpressions;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>
/// A language in which every word of the pack stands between ⟦ and ⟧, so that what stands outside is no text of the pack. It reaches the planner as a translation
/// does: as an assembly of resources in a folder of its tag.
/// </summary>
internal static partial class PseudoTranslation
{
    public const string Tag = "qps-ploc";

    public static IReadOnlyDictionary<string, string> Texts { get; } = PackTextsTests.Neutral.ToDictionary(text => text.Key, text => text.Key == nameof(PackTexts.Language) ? Tag : Marked(text.Value));

    private static readonly Lazy<string> Written = new(Write);

    /// <summary>Writes the assembly once a run, beside the tests.</summary>
    /// <returns>The tag of the language.</returns>
    public static string Install() => Written.Value;

    private static string Write()
    {
        var planner = typeof(PackTexts).Assembly.GetName();
        var name = $"{planner.Name}.resources";
        var metadata = new MetadataBuilder();
        metadata.AddModule(0, metadata.GetOrAddString($"{name}.dll"), metadata.GetOrAddGuid(Guid.NewGuid()), default, default);
        metadata.AddAssembly(metadata.GetOrAddString(name), planner.Version!, metadata.GetOrAddString(CultureInfo.GetCultureInfo(Tag).Name), default, 0, AssemblyHashAlgorithm.None);
        metadata.AddTypeDefinition(default, default, metadata.GetOrAddString("<Module>"), default, MetadataTokens.FieldDefinitionHandle(1), MetadataTokens.MethodDefinitionHandle(1));
        var resources = new BlobBuilder();
        foreach (var file in PackTextsTests.Files)
        {
            using var stream = new MemoryStream();
            using var writer = new ResourceWriter(stream);
            foreach (var key in PackTextsTests.Read(file).Keys)
            {
                writer.AddResource(key, Texts[key]);
            }

            writer.Generate();
            metadata.AddManifestResource(ManifestResourceAttributes.Public, metadata.GetOrAddString($"{file.FullName}.{Tag}.resources"), default, (uint)resources.Count);
            resources.WriteInt32((int)stream.Length);
            resources.WriteBytes(stream.ToArray());
            resources.Align(8);
        }

        var assembly = new BlobBuilder();
        new ManagedPEBuilder(PEHeaderBuilder.CreateLibraryHeader(), new MetadataRootBuilder(metadata), new BlobBuilder(), managedResources: resources).Serialize(assembly);
        File.WriteAllBytes(Path.Combine(Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, Tag)).FullName, $"{name}.dll"), assembly.ToArray());
        return Tag;
    }

    private static string Marked(string text) => string.Concat(Mark().Split(text).Select(part => Mark().IsMatch(part) || !part.Any(char.IsLetter) ? part : $"⟦{part}⟧"));

    // Split keeps what the group matches.
    [GeneratedRegex(@"(\{\d\}|<[^>]*>)")]
    private static partial Regex Mark();
}
